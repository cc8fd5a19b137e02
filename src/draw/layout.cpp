// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/layout.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "draw/board.hpp"

namespace poise::draw {
namespace {

constexpr int attempts = 6;           // each with more room between rows and columns than the one before
constexpr double outer_margin = 8.0;  // that lines may use around the parts
constexpr double track = 2.0;         // from one level run to the next

/// Most level runs that lie over each other in a channel.
int tracks_in(const Board& board, const Channel& channel) {
  std::vector<std::pair<double, int>> ends;
  for (const Run& run : channel) {
    const Span span = span_of(board, run);
    if (span.length() == 0.0) continue;
    ends.emplace_back(span.left - 1, 1);
    ends.emplace_back(span.right + 1, -1);
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
      const Point by{board.cells[c].x, low - item.box.low};
      item = moved(std::move(item), by);
    }
    y += height;
  }
}

Ground ground_of(const std::vector<Item>& items, int wires) {
  Ground g{{1e9, 1e9, -1e9, -1e9}, {}, {}, std::vector<std::vector<Pin>>(static_cast<std::size_t>(wires))};
  for (const Item& item : items) {
    g.box = hull(g.box, item.box);
    if (!item.enclosures.empty()) {
      for (const Enclosure& e : item.enclosures) g.taken.push_back(e.box);
    } else {
      for (const Figure& f : item.figures) {
        g.taken.push_back(f.symbol.box);
        if (f.label.width() > 0) g.taken.push_back(f.label);
        for (const TankMark& t : f.tanks) {
          g.taken.push_back(t.box);
          g.leads.push_back(t.lead);
        }
      }
    }
    for (const Pin& p : item.pins) g.wires[p.wire].push_back(p);
  }
  g.box = g.box.grown(outer_margin);
  for (const Item& item : items) {  // nothing runs beyond the edge where lines leave an assembly
    if (!item.figures.empty()) continue;
    const Pin& gate = item.pins.front();
    if (gate.side == Side::low) g.box.high = gate.at.y;
    if (gate.side == Side::high) g.box.low = gate.at.y;
  }
  return g;
}

/// The pin nearest the pump first: the wire grows from there.
void sort_pins(Ground& ground, const std::vector<Item>& items) {
  const auto visit = [&](const Pin& p) {
    for (const Item& item : items) {
      if (std::ranges::any_of(item.figures, [&](const Figure& f) { return f.symbol.part == p.port.part; })) {
        return item.visit;
      }
    }
    return 0;
  };
  for (auto& wire : ground.wires) std::ranges::stable_sort(wire, {}, visit);
}

const Figure* figure_of(const Item& item, int part) {
  const auto found =
      std::ranges::find_if(item.figures, [&](const Figure& f) { return f.symbol.part == part; });
  return found == item.figures.end() ? nullptr : &*found;
}

/// Moves items to the places wanted by hand, and what they cover out of their way to the right.
void place_by_hand(std::vector<Item>& items, std::span<const HandPlace> by_hand) {
  constexpr double aside = 2.0;
  std::vector<Box> standing;
  std::vector<bool> fixed(items.size(), false);
  for (const HandPlace& place : by_hand) {
    for (std::size_t i = 0; i < items.size(); ++i) {
      const Figure* f = figure_of(items[i], place.part);
      if (f == nullptr || fixed[i]) continue;
      const Point from = f->symbol.at;
      Item there = moved(items[i], {place.at.x - from.x, place.at.y - from.y});
      if (std::ranges::any_of(standing, [&](const Box& b) { return overlap(b, there.box); })) continue;
      items[i] = std::move(there);
      fixed[i] = true;
      standing.push_back(items[i].box);
    }
  }
  if (standing.empty()) return;
  std::vector<std::size_t> order(items.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::ranges::stable_sort(order, {}, [&](std::size_t i) {
    return std::pair{items[i].row, items[i].box.left};
  });
  for (std::size_t i : order) {
    if (fixed[i]) continue;
    for (std::size_t k = 0; k < standing.size();) {
      if (!overlap(standing[k], items[i].box.grown(0.5))) {
        ++k;
        continue;
      }
      items[i] = moved(std::move(items[i]), {std::ceil(standing[k].right + aside - items[i].box.left), 0.0});
      k = 0;
    }
    standing.push_back(items[i].box);
  }
}

}  // namespace

Layout lay_out(const std::vector<Item>& items, int wires, std::span<const HandPlace> by_hand) {
  Layout layout;
  for (int attempt = 0; attempt < attempts; ++attempt) {
    const double room = 2.0 * attempt, gap = 1.0 + attempt;
    Board board = board_of(items, wires);
    order_rows(board, gap);
    layout.items = items;
    place_rows(layout.items, board, room);
    place_by_hand(layout.items, by_hand);
    Ground ground = ground_of(layout.items, wires);
    sort_pins(ground, items);
    layout.routes = find_routes(ground);
    if (layout.routes.complete) break;
  }
  return layout;
}

}  // namespace poise::draw
