// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "draw/layout.hpp"
#include "draw/pilot_lines.hpp"
#include "draw/schematic.hpp"

namespace poise::draw {
namespace {

const std::string& assembly_of(const Item& item, std::span<const Wish> wishes) {
  static const std::string none;
  const auto part = static_cast<std::size_t>(item.figures.front().symbol.part);
  return part < wishes.size() ? wishes[part].assembly : none;
}

/// Items over which others stand are under them again, once assemblies have become items of one row.
void settle_rows(std::vector<Item>& items, std::size_t assemblies) {
  struct Arc {
    std::size_t under, over;
  };
  std::vector<Arc> arcs;
  for (std::size_t u = 0; u < items.size(); ++u) {
    for (std::size_t o = 0; o < items.size(); ++o) {
      if (u == o || (items[o].row <= items[u].row && u >= assemblies && o >= assemblies)) continue;
      const bool stands = std::ranges::any_of(items[u].pins, [&](const Pin& p) {
        return p.side == Side::high && std::ranges::any_of(items[o].pins, [&](const Pin& q) {
                 return q.wire == p.wire && q.side == Side::low;
               });
      });
      if (stands) arcs.push_back({u, o});
    }
  }
  for (std::size_t round = 0; round < items.size(); ++round) {
    bool moved = false;
    for (const Arc& a : arcs) {
      if (items[a.over].row > items[a.under].row) continue;
      items[a.over].row = items[a.under].row + 1;
      moved = true;
    }
    if (!moved) break;
  }
  std::map<int, int> rows;
  for (const Item& i : items) rows[i.row];
  int next = 0;
  for (auto& [row, closed] : rows) closed = next++;
  for (Item& i : items) i.row = rows[i.row];
}

/// The parts of each assembly as one item.
std::vector<Item> with_assemblies(const std::vector<Item>& items, std::span<const Wish> wishes, int wires) {
  std::vector<std::string> names;
  for (const Item& i : items) {
    const std::string& name = assembly_of(i, wishes);
    if (!name.empty() && std::ranges::count(names, name) == 0) names.push_back(name);
  }
  if (names.empty()) return items;
  std::vector<Item> all;
  for (const std::string& name : names) {
    std::vector<Item> members, others;
    for (const Item& i : items) (assembly_of(i, wishes) == name ? members : others).push_back(i);
    all.push_back(enclose(members, others, wires, name));
  }
  for (const Item& i : items) {
    if (assembly_of(i, wishes).empty()) all.push_back(i);
  }
  settle_rows(all, names.size());
  return all;
}

std::vector<HandPlace> places_of(std::span<const Wish> wishes) {
  std::vector<HandPlace> places;
  for (std::size_t p = 0; p < wishes.size(); ++p) {
    if (!wishes[p].at) continue;
    places.push_back({static_cast<int>(p), {std::round(wishes[p].at->x), std::round(wishes[p].at->y)}});
  }
  return places;
}

struct Drawing {
  const Plan& plan;
  const Links links;
  const Levels levels;
  std::span<const Words> words;
  std::span<const Wish> wishes;

  int wires() const { return static_cast<int>(links.wires.size()); }
  Layout lay_out_with(const std::vector<bool>& mirror, std::span<const HandPlace> places) const {
    const auto items = with_assemblies(items_of(plan, links, levels, words, mirror), wishes, wires());
    return lay_out(items, wires(), places);
  }

  /// The parts whose pilots and drains look away from what they are joined to.
  std::vector<bool> better_mirrored(const Layout& layout, const std::vector<bool>& mirror) const {
    std::map<int, std::vector<Point>> places;
    for (const Item& item : layout.items) {
      for (const Figure& f : item.figures) {
        for (int port = 0; port < static_cast<int>(f.symbol.anchors.size()); ++port) {
          const int wire = links.of[f.symbol.part][port].wire;
          if (wire >= 0) places[wire].push_back(f.symbol.anchors[port]);
        }
      }
    }
    std::vector<bool> better = mirror;
    for (const Item& item : layout.items) {
      for (const Pin& p : item.pins) {
        if (p.side != Side::left && p.side != Side::right) continue;
        if (!may_mirror(plan.parts[p.port.part])) continue;
        double nearest = 1e300, aside = 0.0;
        for (Point other : places[p.wire]) {
          const double far = std::abs(other.x - p.at.x) + std::abs(other.y - p.at.y);
          if (far == 0.0 || far >= nearest) continue;
          nearest = far;
          aside = other.x - p.at.x;
        }
        const bool away = p.side == Side::left ? aside > 0 : aside < 0;
        if (away) better[p.port.part] = !mirror[p.port.part];
      }
    }
    return better;
  }
};

void cover(Box& box, const Layout& layout) {
  for (const Item& item : layout.items) box = hull(box, item.box);
  for (const Found& wire : layout.routes.wires) {
    for (const Segment& s : wire.segments) box = hull(box, {s.from.x, s.from.y, s.to.x, s.to.y});
  }
}

Schematic schematic_of(const Drawing& d, const Layout& layout) {
  Schematic s;
  s.symbols.resize(d.plan.parts.size());
  s.labels.resize(d.plan.parts.size());
  std::vector<std::vector<Segment>> pieces(d.links.wires.size());
  for (const Item& item : layout.items) {
    for (const Figure& f : item.figures) {
      s.symbols[f.symbol.part] = f.symbol;
      s.labels[f.symbol.part] = {f.symbol.part, f.label};
      s.tanks.insert(s.tanks.end(), f.tanks.begin(), f.tanks.end());
    }
    for (const Lines& l : item.lines) {
      pieces[l.wire].insert(pieces[l.wire].end(), l.segments.begin(), l.segments.end());
    }
    s.enclosures.insert(s.enclosures.end(), item.enclosures.begin(), item.enclosures.end());
  }
  for (std::size_t w = 0; w < d.links.wires.size(); ++w) {
    Found found = layout.routes.wires[w];
    if (!pieces[w].empty()) {
      found.segments.insert(found.segments.end(), pieces[w].begin(), pieces[w].end());
      found = joined(found.segments);
    }
    Wire wire{d.links.wires[w], std::move(found.segments), std::move(found.junctions), false};
    wire.mechanical = d.plan.port(wire.ports.front()).domain == Domain::motion;
    std::vector<Point> anchors;
    for (PortOf p : wire.ports) anchors.push_back(s.symbols[p.part].anchors[p.port]);
    mark_pilots(wire, d.plan, anchors);
    if (wire.segments.empty()) {
      s.remarks.push_back({d.plan.parts[wire.ports.front().part].place,
                           "no way was found on the drawing for the line between " +
                               d.plan.name(wire.ports.front()) + " and " + d.plan.name(wire.ports.back())});
    }
    s.wires.push_back(std::move(wire));
  }
  s.box = {1e9, 1e9, -1e9, -1e9};
  cover(s.box, layout);
  return s;
}

void remark_on_places(Schematic& s, const Plan& plan, std::span<const HandPlace> places, bool used) {
  for (const HandPlace& p : places) {
    if (used && s.symbols[p.part].at == p.at) continue;
    const PlannedPart& part = plan.parts[p.part];
    s.remarks.push_back({part.place, part.tag + " cannot be drawn where drawn_at puts it: " +
                                         (used ? "another part that is placed by hand stands there"
                                               : "it would leave no way for a line")});
  }
}

}  // namespace

Schematic arrange(const Plan& plan, std::span<const Words> words, std::span<const Wish> wishes) {
  Links links = links_of(plan);
  Levels levels = levels_of(plan, links);
  const Drawing drawing{plan, std::move(links), std::move(levels), words, wishes};
  const std::vector<HandPlace> places = places_of(wishes);
  std::vector<bool> mirror(plan.parts.size(), false);
  Layout layout = drawing.lay_out_with(mirror, places);
  const bool by_hand = layout.routes.complete || places.empty();
  const std::span<const HandPlace> used = by_hand ? std::span(places) : std::span<const HandPlace>{};
  if (!by_hand) layout = drawing.lay_out_with(mirror, used);
  if (const auto better = drawing.better_mirrored(layout, mirror); better != mirror) {
    Layout turned = drawing.lay_out_with(better, used);
    if (turned.routes.complete && turned.routes.cost < layout.routes.cost) layout = std::move(turned);
  }
  Schematic s = schematic_of(drawing, layout);
  remark_on_places(s, plan, places, by_hand);
  return s;
}

}  // namespace poise::draw
