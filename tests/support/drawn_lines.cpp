// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "support/drawn_lines.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace poise::drawing {
namespace {

using draw::Point;
using draw::Segment;
using Spot = DrawnLine::Spot;

bool on(const Segment& s, Point at) { return distance(at, s) < same_place; }

/// Where the piece is cut: its own ends, others' ends on it, and where others cross it.
std::vector<Point> cuts_of(const Segment& s, const std::vector<Segment>& all,
                           const std::vector<Point>& ports) {
  std::vector<Point> cuts{s.from, s.to};
  for (const Segment& other : all) {
    for (const Point at : {other.from, other.to}) {
      if (on(s, at)) cuts.push_back(at);
    }
    const Point crossing = level(s) ? Point{other.from.x, s.from.y} : Point{s.from.x, other.from.y};
    if (level(s) != level(other) && on(s, crossing) && on(other, crossing)) cuts.push_back(crossing);
  }
  for (const Point at : ports) {
    if (on(s, at)) cuts.push_back(at);
  }
  std::ranges::sort(cuts, [](Point a, Point b) { return std::pair{a.x, a.y} < std::pair{b.x, b.y}; });
  return cuts;
}

void cut(DrawnLine& line, const std::vector<Point>& ports) {
  std::set<std::pair<Spot, Spot>> seen;
  for (const Segment& s : line.segments) {
    const std::vector<Point> cuts = cuts_of(s, line.segments, ports);
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
      const Spot a = spot(cuts[i]), b = spot(cuts[i + 1]);
      if (a == b) continue;
      if (!seen.insert(std::minmax(a, b)).second) {
        line.lies_on_itself = true;
        continue;
      }
      line.meets[a].push_back(b);
      line.meets[b].push_back(a);
    }
  }
}

/// Whether a line only goes straight on here.
bool runs_through(Spot at, const std::vector<Spot>& neighbours) {
  if (neighbours.size() != 2) return false;
  const auto& [a, b] = std::pair{neighbours[0], neighbours[1]};
  return (a.first == at.first && b.first == at.first) || (a.second == at.second && b.second == at.second);
}

}  // namespace

Spot spot(Point at) { return {std::llround(at.x / same_place), std::llround(at.y / same_place)}; }
Point place(Spot s) {
  return {static_cast<double>(s.first) * same_place, static_cast<double>(s.second) * same_place};
}

bool level(const Segment& s) { return std::abs(s.from.y - s.to.y) < same_place; }
bool upright(const Segment& s) { return std::abs(s.from.x - s.to.x) < same_place; }

draw::Box around(const Segment& s) {
  return {std::min(s.from.x, s.to.x), std::min(s.from.y, s.to.y), std::max(s.from.x, s.to.x),
          std::max(s.from.y, s.to.y)};
}

bool passes_inside(const Segment& s, const draw::Box& box) {
  const draw::Box inside = box.grown(-same_place), all = around(s);
  return inside.width() > 0 && inside.height() > 0 && all.left < inside.right && inside.left < all.right &&
         all.low < inside.high && inside.low < all.high;
}

double distance(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); }
double distance(Point a, const Segment& s) {
  const draw::Box all = around(s);
  return distance(a, Point{std::clamp(a.x, all.left, all.right), std::clamp(a.y, all.low, all.high)});
}

std::vector<DrawnLine> lines_of(const Plan& plan, const draw::Schematic& schematic) {
  std::vector<DrawnLine> lines;
  const auto add = [&](DrawnLine line) {
    std::vector<Point> ports;
    for (const PortOf p : line.ports) ports.push_back(schematic.symbols.at(p.part).anchors.at(p.port));
    cut(line, ports);
    lines.push_back(std::move(line));
  };
  for (const draw::Wire& wire : schematic.wires) {
    std::string name = "line";
    for (const PortOf p : wire.ports) name += " " + plan.name(p);
    add({.name = name, .ports = wire.ports, .segments = wire.segments, .mechanical = wire.mechanical});
  }
  for (std::size_t i = 0; i < schematic.tanks.size(); ++i) {
    const draw::TankMark& tank = schematic.tanks[i];
    DrawnLine line{
        .name = "lead of " + plan.name(tank.port), .ports = {tank.port}, .tank = static_cast<int>(i)};
    for (std::size_t k = 0; k + 1 < tank.lead.size(); ++k)
      line.segments.push_back({tank.lead[k], tank.lead[k + 1]});
    add(std::move(line));
  }
  return lines;
}

std::vector<Segment> straight_runs(const DrawnLine& line) {
  std::vector<Segment> runs;
  for (const auto& [at, neighbours] : line.meets) {
    if (runs_through(at, neighbours)) continue;
    for (Spot next : neighbours) {
      Spot before = at;
      while (runs_through(next, line.meets.at(next))) {
        const std::vector<Spot>& way = line.meets.at(next);
        const Spot onwards = way[0] == before ? way[1] : way[0];
        before = next;
        next = onwards;
      }
      if (at < next) runs.push_back({place(at), place(next)});
    }
  }
  return runs;
}

}  // namespace poise::drawing
