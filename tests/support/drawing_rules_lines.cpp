// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Rules for the lines of a drawing.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <numeric>
#include <set>

#include "support/drawing_rules.hpp"
#include "support/drawn_boxes.hpp"
#include "support/drawn_lines.hpp"

namespace poise::drawing {
namespace {

using draw::Point;
using draw::Segment;

/// From a crossing to the next corner, junction or end, M: a dot's radius (0.375 M) and the line's own width.
constexpr double least_way_to_a_crossing = 0.5;

Point anchor(const Drawn& drawn, PortOf p) { return drawn.schematic.symbols[p.part].anchors[p.port]; }

bool owns(const DrawnLine& line, PortOf port) {
  return std::ranges::find(line.ports, port) != line.ports.end();
}

/// Which ports are joined, grown one joint at a time.
class Joined {
 public:
  explicit Joined(const Plan& plan) {
    for (std::size_t i = 0; i < plan.parts.size(); ++i) {
      first_.push_back(ports_);
      ports_ += static_cast<int>(plan.parts[i].kind->ports.size());
    }
    above_.resize(ports_);
    std::iota(above_.begin(), above_.end(), 0);
  }
  void join(PortOf a, PortOf b) { above_[root(a)] = root(b); }
  bool joined(PortOf a, PortOf b) { return root(a) == root(b); }

 private:
  int root(PortOf p) {
    int at = first_[p.part] + p.port;
    while (above_[at] != at) at = above_[at] = above_[above_[at]];
    return at;
  }
  int ports_ = 0;
  std::vector<int> first_, above_;
};

std::vector<PortOf> ports_of(const Plan& plan) {
  std::vector<PortOf> ports;
  for (std::size_t i = 0; i < plan.parts.size(); ++i) {
    for (std::size_t k = 0; k < plan.parts[i].kind->ports.size(); ++k) {
      if (port_exists(plan.parts[i].kind->ports[k], plan.parts[i].values))
        ports.push_back({static_cast<int>(i), static_cast<int>(k)});
    }
  }
  return ports;
}

std::set<PortOf> joined_ports(const Plan& plan) {
  std::set<PortOf> ports;
  for (const Joint& joint : plan.joints) ports.insert({joint.a, joint.b});
  return ports;
}

/// Ports of other parts that are drawn at the same place as this one.
std::vector<PortOf> attached_to(const Drawn& drawn, PortOf port, const std::set<PortOf>& all) {
  std::vector<PortOf> attached;
  for (const PortOf other : all) {
    if (other.part != port.part && distance(anchor(drawn, other), anchor(drawn, port)) < same_place)
      attached.push_back(other);
  }
  return attached;
}

/// How near to `at` the piece has an end.
double from_end(const Segment& s, Point at) { return std::min(distance(s.from, at), distance(s.to, at)); }

/// Whether a piece is inside a symbol's box only to get to its own port, near the edge.
bool enters_at_its_port(const Drawn& drawn, const DrawnLine& line, const Segment& s, const NamedBox& box) {
  const draw::Box all = around(s);
  const draw::Box inside{std::max(all.left, box.box.left), std::max(all.low, box.box.low),
                         std::min(all.right, box.box.right), std::min(all.high, box.box.high)};
  if (inside.width() + inside.height() > room_of_a_dot) return false;
  return box.symbol && std::ranges::any_of(line.ports, [&](PortOf p) {
           return p.part == box.part && from_end(s, anchor(drawn, p)) < same_place;
         });
}

void check_pair(const DrawnLine& a, const DrawnLine& b, Sentences& wrong) {
  for (const Segment& s : straight_runs(a)) {
    for (const Segment& t : straight_runs(b)) {
      const draw::Box u = around(s), v = around(t);
      const bool apart = u.left > v.right + same_place || v.left > u.right + same_place ||
                         u.low > v.high + same_place || v.low > u.high + same_place;
      if (apart) continue;
      const Point at{std::max(u.left, v.left), std::max(u.low, v.low)};
      if (level(s) == level(t)) {
        wrong.push_back(fmt::format("{} and {} lie on each other at {:g}, {:g}", a.name, b.name, at.x, at.y));
      } else if (std::min(from_end(s, at), from_end(t, at)) < least_way_to_a_crossing - same_place) {
        wrong.push_back(fmt::format("{} and {} cross too near an end, a corner or a dot at {:g}, {:g}",
                                    a.name, b.name, at.x, at.y));
      }
    }
  }
}

void check_tree(const Drawn& drawn, const DrawnLine& line, Sentences& wrong) {
  const auto complain = [&](std::string what) { wrong.push_back(line.name + " " + std::move(what)); };
  std::set<DrawnLine::Spot> ports;
  for (const PortOf p : line.ports) ports.insert(spot(anchor(drawn, p)));
  if (line.segments.empty()) return complain("has no pieces");
  for (const PortOf p : line.ports) {
    if (!line.meets.contains(spot(anchor(drawn, p)))) complain("does not touch " + drawn.plan.name(p));
  }
  if (line.lies_on_itself) complain("lies on itself");
  std::size_t ends = 0;
  for (const auto& [at, neighbours] : line.meets) {
    ends += neighbours.size();
    if (neighbours.size() == 1 && !ports.contains(at) && line.tank < 0)
      complain(fmt::format("ends nowhere at {:g}, {:g}", place(at).x, place(at).y));
  }
  std::set<DrawnLine::Spot> reached;
  const std::function<void(DrawnLine::Spot)> visit = [&](DrawnLine::Spot at) {
    if (!reached.insert(at).second) return;
    for (const auto& next : line.meets.at(at)) visit(next);
  };
  if (line.meets.empty()) return complain("has no length");
  visit(line.meets.begin()->first);
  if (reached.size() != line.meets.size()) complain("is in pieces");
  if (ends / 2 + 1 > line.meets.size()) complain("runs in a ring");
}

}  // namespace

Sentences slanting_pieces(const Drawn& drawn) {
  Sentences wrong;
  for (const DrawnLine& line : lines_of(drawn.plan, drawn.schematic)) {
    for (const Segment& s : line.segments) {
      if (level(s) == upright(s))
        wrong.push_back(fmt::format("{} has a piece from {:g}, {:g} to {:g}, {:g}", line.name, s.from.x,
                                    s.from.y, s.to.x, s.to.y));
    }
  }
  return wrong;
}

Sentences lines_through_boxes(const Drawn& drawn) {
  Sentences wrong;
  const std::vector<NamedBox> boxes = boxes_of(drawn.plan, drawn.schematic);
  const std::vector<PortOf> ports = ports_of(drawn.plan);
  for (const DrawnLine& line : lines_of(drawn.plan, drawn.schematic)) {
    for (const Segment& s : straight_runs(line)) {
      for (const NamedBox& box : boxes) {
        const bool own_mark = box.tank >= 0 && box.tank == line.tank;
        if (!own_mark && passes_inside(s, box.box) && !enters_at_its_port(drawn, line, s, box))
          wrong.push_back(
              fmt::format("{} runs through the {} at {:g}, {:g}", line.name, box.name, s.from.x, s.from.y));
      }
      for (const PortOf p : ports) {
        const bool own = owns(line, p) || std::ranges::any_of(line.ports, [&](PortOf q) {
                           return distance(anchor(drawn, p), anchor(drawn, q)) <
                                  same_place;  // attached to one of its ports
                         });
        if (!own && distance(anchor(drawn, p), s) < least_way_to_a_crossing - same_place)
          wrong.push_back(fmt::format("{} runs over {}", line.name, drawn.plan.name(p)));
      }
    }
  }
  return wrong;
}

Sentences lines_that_are_no_trees(const Drawn& drawn) {
  Sentences wrong;
  for (const DrawnLine& line : lines_of(drawn.plan, drawn.schematic)) check_tree(drawn, line, wrong);
  return wrong;
}

Sentences lines_that_mix(const Drawn& drawn) {
  Sentences wrong;
  const std::vector<DrawnLine> lines = lines_of(drawn.plan, drawn.schematic);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) check_pair(lines[k], lines[i], wrong);
  }
  return wrong;
}

Sentences wrong_dots(const Drawn& drawn) {
  Sentences wrong;
  const std::vector<DrawnLine> lines = lines_of(drawn.plan, drawn.schematic);
  for (std::size_t i = 0; i < drawn.schematic.wires.size(); ++i) {
    std::set<DrawnLine::Spot> want, is;
    for (const auto& [at, neighbours] : lines[i].meets) {
      // The short line of its own that a symbol has at a port is a piece too.
      const auto leads = std::ranges::count_if(
          lines[i].ports, [&, at = at](PortOf p) { return spot(anchor(drawn, p)) == at; });
      if (neighbours.size() + static_cast<std::size_t>(leads) >= 3) want.insert(at);
    }
    for (const Point at : drawn.schematic.wires[i].junctions) is.insert(spot(at));
    for (const auto& at : want) {
      if (!is.contains(at))
        wrong.push_back(fmt::format("{} lacks a dot at {:g}, {:g}", lines[i].name, place(at).x, place(at).y));
    }
    for (const auto& at : is) {
      if (!want.contains(at))
        wrong.push_back(
            fmt::format("{} has a dot too many at {:g}, {:g}", lines[i].name, place(at).x, place(at).y));
    }
  }
  return wrong;
}

Sentences joints_drawn_wrong(const Drawn& drawn) {
  Sentences wrong;
  Joined planned(drawn.plan), seen(drawn.plan);
  for (const Joint& joint : drawn.plan.joints) planned.join(joint.a, joint.b);
  std::map<PortOf, int> times;
  const auto draw_joint = [&](PortOf a, PortOf b, const std::string& name) {
    if (!planned.joined(a, b))
      wrong.push_back(name + " joins " + drawn.plan.name(a) + " and " + drawn.plan.name(b));
    seen.join(a, b);
  };
  for (const draw::Wire& wire : drawn.schematic.wires) {
    for (const PortOf p : wire.ports) ++times[p], draw_joint(wire.ports[0], p, "a line");
  }
  for (const draw::TankMark& tank : drawn.schematic.tanks) {
    ++times[tank.port];
    draw_joint(tank.port, {tank.reservoir, 0}, "a tank mark");
  }
  const std::set<PortOf> joined = joined_ports(drawn.plan);
  for (const PortOf p : joined) {
    const std::vector<PortOf> attached = attached_to(drawn, p, joined);
    for (const PortOf other : attached) draw_joint(p, other, "an attachment");
    const bool reservoir =
        std::ranges::any_of(drawn.schematic.tanks, [&](const auto& t) { return t.reservoir == p.part; });
    if (times[p] > 1) wrong.push_back(drawn.plan.name(p) + " is on more than one line");
    if (times[p] == 0 && attached.empty() && !reservoir)
      wrong.push_back(drawn.plan.name(p) + " is on no line");
  }
  for (const Joint& joint : drawn.plan.joints) {
    if (!seen.joined(joint.a, joint.b))
      wrong.push_back(drawn.plan.name(joint.a) + " and " + drawn.plan.name(joint.b) + " are not joined");
  }
  return wrong;
}

Sentences broken_rules(const Drawn& drawn) {
  Sentences all = symbols_set_wrong(drawn);
  if (drawn.schematic.symbols.size() != drawn.plan.parts.size()) return all;
  for (const auto& rule :
       {slanting_pieces, lines_that_are_no_trees, joints_drawn_wrong, boxes_that_overlap, lines_through_boxes,
        lines_that_mix, wrong_dots, enclosures_drawn_wrong, outside_the_drawing}) {
    const Sentences some = rule(drawn);
    all.insert(all.end(), some.begin(), some.end());
  }
  return all;
}

}  // namespace poise::drawing
