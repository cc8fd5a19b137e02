// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <algorithm>
#include <climits>
#include <map>

#include "draw/label.hpp"
#include "draw/layout.hpp"

namespace poise::draw {
namespace {

constexpr double air = 1.0;  // between an enclosure and what it holds, ISO 1219-1 (from memory)

bool holds(const Item& item, int wire) {
  return std::ranges::any_of(item.pins, [&](const Pin& p) { return p.wire == wire; });
}
bool any_holds(const std::vector<Item>& items, int wire) {
  return std::ranges::any_of(items, [&](const Item& i) { return holds(i, wire); });
}

/// Whether a wire leaves its assembly upwards: something it leads to stands on it higher up.
bool leaves_upwards(const std::vector<Item>& members, const std::vector<Item>& others, int wire) {
  int lowest = INT_MAX;
  for (const Item& m : members) lowest = std::min(lowest, m.row);
  for (const Item& o : others) {
    for (const Pin& p : o.pins) {
      if (p.wire == wire && p.side != Side::high && o.row >= lowest) return true;
    }
  }
  return false;
}

/// A place on the edge of an enclosure where a wire leaves it: it stands over or under all members.
Item gate(int wire, bool upwards, int row, PortOf port, int visit) {
  Item item;
  item.pins.push_back({port, wire, {0, 0}, upwards ? Side::low : Side::high});
  item.box = {-1, 0, 1, 0};
  item.row = row;
  item.visit = visit;
  return item;
}

/// Rows without gaps, the lowest at 1, so that gates have room under it.
void close_rows(std::vector<Item>& items) {
  std::map<int, int> rows;
  for (const Item& i : items) rows[i.row];
  int next = 1;
  for (auto& [row, closed] : rows) closed = next++;
  for (Item& i : items) i.row = rows[i.row];
}

/// In the lower left corner, beside the lines that leave there.
Box place_name(const Box& inside, const std::vector<Pin>& gates, LabelSize size) {
  double left = inside.left + 0.5;
  for (bool moved = true; moved;) {
    moved = false;
    for (const Pin& g : gates) {
      if (g.side != Side::low || g.at.x < left - 0.75 || g.at.x > left + size.width + 0.75) continue;
      left = g.at.x + 1.0;
      moved = true;
    }
  }
  return {left, inside.low - size.height, left + size.width, inside.low};
}

}  // namespace

Item enclose(const std::vector<Item>& members, const std::vector<Item>& others, int wires,
             const std::string& name) {
  std::vector<Item> inside = members;
  close_rows(inside);
  int top = 0, visit = INT_MAX, row = INT_MAX;
  for (const Item& i : inside) {
    top = std::max(top, i.row + 1);
    visit = std::min(visit, i.visit);
  }
  for (const Item& m : members) row = std::min(row, m.row);
  const std::size_t count = inside.size();
  for (int w = 0; w < wires; ++w) {
    if (!any_holds(members, w) || !any_holds(others, w)) continue;
    const auto holder = std::ranges::find_if(members, [&](const Item& m) { return holds(m, w); });
    const auto pin = std::ranges::find(holder->pins, w, &Pin::wire);
    const bool up = leaves_upwards(members, others, w);
    inside.push_back(gate(w, up, up ? top : 0, pin->port, holder->visit));
  }
  const bool under = std::ranges::any_of(inside, [](const Item& i) { return i.row == 0; });
  if (!under) {
    for (Item& i : inside) --i.row;
  }
  Layout layout = lay_out(inside, wires, {});

  Item whole;
  whole.row = row;
  whole.visit = visit;
  Box box{1e9, 1e9, -1e9, -1e9};
  for (std::size_t i = 0; i < count; ++i) {
    Item& m = layout.items[i];
    box = hull(box, m.box);
    whole.figures.insert(whole.figures.end(), m.figures.begin(), m.figures.end());
  }
  for (int w = 0; w < wires; ++w) {
    const Found& found = layout.routes.wires[w];
    if (found.segments.empty()) continue;
    whole.lines.push_back({w, found.segments});
    for (const Segment& s : found.segments) box = hull(box, {s.from.x, s.from.y, s.to.x, s.to.y});
  }
  for (std::size_t i = count; i < layout.items.size(); ++i) {
    Pin pin = layout.items[i].pins.front();
    pin.side = pin.side == Side::low ? Side::high : Side::low;  // seen from outside
    whole.pins.push_back(pin);
  }
  box = {box.left - air, box.low - air, box.right + air, box.high + air};
  const Box label = place_name(box, whole.pins, label_size({{}, name, {}}));
  box.low = std::floor(label.low);
  box.right = std::max(box.right, std::ceil(label.right + 0.5));
  for (Pin& pin : whole.pins) {  // their lines go on to the edge
    const Point edge{pin.at.x, pin.side == Side::high ? box.high : box.low};
    const auto lines = std::ranges::find(whole.lines, pin.wire, &Lines::wire);
    const Point from{pin.at.x, std::min(pin.at.y, edge.y)}, to{pin.at.x, std::max(pin.at.y, edge.y)};
    const auto straight = std::ranges::find_if(lines->segments, [&](const Segment& s) {
      return s.from.x == s.to.x && (s.from == pin.at || s.to == pin.at);
    });
    if (straight != lines->segments.end()) {
      straight->from.y = std::min(straight->from.y, from.y);
      straight->to.y = std::max(straight->to.y, to.y);
    } else {
      lines->segments.push_back({from, to});
    }
    pin.at = edge;
  }
  whole.enclosures.push_back({name, box, label});
  whole.box = box;
  return whole;
}

}  // namespace poise::draw
