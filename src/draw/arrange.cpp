// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <algorithm>
#include <cmath>

#include "draw/board.hpp"
#include "draw/pilot_lines.hpp"
#include "draw/router.hpp"
#include "draw/schematic.hpp"

namespace poise::draw {
namespace {

constexpr int attempts = 6;           // each with more room between rows and columns than the one before
constexpr double outer_margin = 8.0;  // that lines may use around the parts
constexpr double track = 2.0;         // from one level run to the next

struct Layout {
  std::vector<Item> items;  // in their places
  Routes routes;
};

/// Most level runs that lie over each other in a channel.
int tracks_in(const Board& board, const Channel& channel) {
  std::vector<std::pair<double, int>> ends;
  std::vector<std::pair<int, double>> touches;
  for (const auto* side : {&channel.below, &channel.above}) {
    for (const Touch& t : *side) touches.emplace_back(t.wire, board.x_of(t));
  }
  std::ranges::sort(touches);
  for (std::size_t i = 0; i < touches.size();) {
    std::size_t last = i;
    while (last + 1 < touches.size() && touches[last + 1].first == touches[i].first) ++last;
    if (touches[last].second > touches[i].second) {
      ends.emplace_back(touches[i].second - 1, 1);
      ends.emplace_back(touches[last].second + 1, -1);
    }
    i = last + 1;
  }
  std::ranges::sort(ends);
  int now = 0, most = 0;
  for (const auto& [x, change] : ends) most = std::max(most, now += change);
  return most;
}

/// Height of a pin that an item of the row hangs from or stands on.
double footing(const Item& item) {
  double low = 1e300, high = -1e300;
  for (const Pin& p : item.pins) {
    if (p.side == Side::low) low = std::min(low, p.at.y);
    if (p.side == Side::high) high = std::max(high, p.at.y);
  }
  if (low < 1e300) return low - item.box.low;
  return high > -1e300 ? 0.0 : item.figures.front().symbol.box.low - item.box.low;
}
bool hangs(const Item& item) {
  const auto at = [&](Side s) {
    return std::ranges::any_of(item.pins, [&](const Pin& p) { return p.side == s; });
  };
  return at(Side::high) && !at(Side::low);
}

/// Rows over each other: items that stand on a line have their lower pins at one height, items that hang from
/// one their upper edge.
void place_rows(std::vector<Item>& items, const Board& board, double room) {
  double y = 0.0;
  for (std::size_t r = 0; r < board.rows.size(); ++r) {
    const int tracks = tracks_in(board, board.channels[r]);
    if (r > 0) y += 2.0 + track * tracks + room;
    double base = 0.0, height = 0.0;
    for (int c : board.rows[r]) {
      if (board.cells[c].item < 0 || hangs(items[board.cells[c].item])) continue;
      base = std::max(base, footing(items[board.cells[c].item]));
    }
    for (int c : board.rows[r]) {
      if (board.cells[c].item < 0) continue;
      const Item& item = items[board.cells[c].item];
      height = std::max(height, item.box.height() + (hangs(item) ? 0.0 : base - footing(item)));
    }
    for (int c : board.rows[r]) {
      if (board.cells[c].item < 0) continue;
      Item& item = items[board.cells[c].item];
      const double low = hangs(item) ? y + height - item.box.height() : y + base - footing(item);
      item = moved(std::move(item), {board.cells[c].x, low - item.box.low});
    }
    y += height;
  }
}

Ground ground_of(const std::vector<Item>& items, int wires) {
  Ground g{{1e9, 1e9, -1e9, -1e9}, {}, {}, std::vector<std::vector<Pin>>(static_cast<std::size_t>(wires))};
  for (const Item& item : items) {
    g.box = hull(g.box, item.box);
    for (const Figure& f : item.figures) {
      g.taken.push_back(f.symbol.box);
      if (f.label.width() > 0) g.taken.push_back(f.label);
      for (const TankMark& t : f.tanks) {
        g.taken.push_back(t.box);
        g.leads.push_back(t.lead);
      }
    }
    for (const Pin& p : item.pins) g.wires[p.wire].push_back(p);
  }
  g.box = g.box.grown(outer_margin);
  return g;
}

/// The pin nearest the pump first: the wire grows from there.
void sort_pins(Ground& ground, const Levels& levels) {
  for (auto& wire : ground.wires) {
    std::ranges::stable_sort(wire, {}, [&](const Pin& p) { return levels.visit[p.port.part]; });
  }
}

Layout lay_out(const std::vector<Item>& items, const Levels& levels, int wires) {
  Layout layout;
  for (int attempt = 0; attempt < attempts; ++attempt) {
    const double room = 2.0 * attempt, gap = 1.0 + attempt;
    Board board = board_of(items, wires);
    order_rows(board, gap);
    layout.items = items;
    place_rows(layout.items, board, room);
    Ground ground = ground_of(layout.items, wires);
    sort_pins(ground, levels);
    layout.routes = find_routes(ground);
    if (layout.routes.complete) break;
  }
  return layout;
}

Schematic schematic_of(const Plan& plan, const Links& links, const Layout& layout) {
  Schematic s;
  s.symbols.resize(plan.parts.size());
  s.labels.resize(plan.parts.size());
  s.box = {1e9, 1e9, -1e9, -1e9};
  for (const Item& item : layout.items) {
    for (const Figure& f : item.figures) {
      s.symbols[f.symbol.part] = f.symbol;
      s.labels[f.symbol.part] = {f.symbol.part, f.label};
      s.tanks.insert(s.tanks.end(), f.tanks.begin(), f.tanks.end());
      s.box = hull(s.box, f.symbol.box);
      if (f.label.width() > 0) s.box = hull(s.box, f.label);
      for (const TankMark& t : f.tanks) s.box = hull(s.box, t.box);
    }
  }
  for (std::size_t w = 0; w < links.wires.size(); ++w) {
    const Found& found = layout.routes.wires[w];
    Wire wire{links.wires[w], found.segments, found.junctions, false};
    wire.mechanical = plan.port(wire.ports.front()).domain == Domain::motion;
    std::vector<Point> anchors;
    for (PortOf p : wire.ports) anchors.push_back(s.symbols[p.part].anchors[p.port]);
    mark_pilots(wire, plan, anchors);
    for (const Segment& seg : wire.segments) {
      s.box = hull(s.box, {seg.from.x, seg.from.y, seg.to.x, seg.to.y});
    }
    s.wires.push_back(std::move(wire));
  }
  return s;
}

}  // namespace

Schematic arrange(const Plan& plan, std::span<const Words> words, std::span<const Wish> wishes) {
  (void)wishes;
  const Links links = links_of(plan);
  const Levels levels = levels_of(plan, links);
  const std::vector<bool> mirror(plan.parts.size(), false);
  const std::vector<Item> items = items_of(plan, links, levels, words, mirror);
  return schematic_of(plan, links, lay_out(items, levels, static_cast<int>(links.wires.size())));
}

}  // namespace poise::draw
