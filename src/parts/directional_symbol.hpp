// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <algorithm>
#include <span>
#include <vector>

#include "parts/symbol_pieces.hpp"
#include "parts/table.hpp"

namespace poise {

/// Which ports a position of a directional valve joins: pairs of port indices.
struct Path {
  int from, to;
};
struct Position {
  std::array<Path, 6> paths{};
  int count = 0;
};

namespace directional {

template <std::size_t N>
constexpr Position joins(const Path (&paths)[N]) {
  Position p;
  for (const Path& path : paths) p.paths[p.count++] = path;
  return p;
}
inline constexpr Position all_shut{};

/// Where a port meets the box of the rest position, whose lower left corner is at 0, 0.
constexpr Anchor place_of(std::string_view port, std::size_t ports) {
  const double y = port == "A" || port == "B" ? 4 : 0;
  if (ports == 2) return {2, y};
  return {port == "P" || port == "A" ? 1.0 : 3.0, y};
}

/// Whether every path of a position runs by itself across the box: then each is an arrow. Else what is joined
/// hangs on one line at half height.
constexpr bool runs_across(const Position& position, std::size_t ports, std::span<const Port> names) {
  std::array<int, 4> met{};
  for (int i = 0; i < position.count; ++i) {
    const auto [from, to] = position.paths[i];
    if (place_of(names[from].name, ports).y == place_of(names[to].name, ports).y) return false;
    if (++met[from] > 1 || ++met[to] > 1) return false;
  }
  return true;
}

/// One position's box with its open paths and its shut ports as bars.
template <class Layout>
constexpr void draw_box(pieces::Sketch& sketch, const Position& position, double left) {
  constexpr std::size_t count = Layout::ports.size();
  sketch.add(stroke::box(left, 0, left + 4, 4));
  const bool across = runs_across(position, count, Layout::ports);
  std::array<bool, count> joined{};
  for (int i = 0; i < position.count; ++i) {
    const auto from = static_cast<std::size_t>(position.paths[i].from);
    const auto to = static_cast<std::size_t>(position.paths[i].to);
    const Anchor a = place_of(Layout::ports[from].name, count), b = place_of(Layout::ports[to].name, count);
    if (across) sketch.add(stroke::arrow(left + a.x, a.y, left + b.x, b.y));
    joined[from] = joined[to] = true;
  }
  if (!across) sketch.add(stroke::line(left + 1, 2, left + 3, 2));
  for (std::size_t i = 0; i < count; ++i) {
    const Anchor at = place_of(Layout::ports[i].name, count);
    if (!joined[i]) sketch.add(pieces::shut_port(left + at.x, at.y, at.y > 0 ? -1 : 1));
    if (joined[i] && !across) sketch.add(stroke::line(left + at.x, at.y, left + at.x, 2));
  }
}

/// A box per position, a solenoid where it is shifted to, springs that bring it back. `place` is the number
/// of the box, counted from the left, that stands at the leads; between two while the valve shifts.
template <class Layout>
constexpr pieces::Sketch sketch(std::span<const Position> boxes, double place) {
  pieces::Sketch s;
  const auto count = boxes.size();
  const double left = -4.0 * place, right = left + 4.0 * static_cast<double>(count);
  for (std::size_t i = 0; i < count; ++i) {
    draw_box<Layout>(s, boxes[i], left + 4.0 * static_cast<double>(i));
  }
  for (const Port& port : Layout::ports) {
    const Anchor at = place_of(port.name, Layout::ports.size());
    s.add(stroke::line(at.x, at.y, at.x, at.y > 0 ? 6 : -2));
  }
  s.add(pieces::solenoid(left, count == 3 ? 2 : 1, -1));
  if (count == 3) {
    s.add(pieces::solenoid(right, 2, 1));
    s.add(stroke::spring(left - 2, 1, left, 1));
    s.add(stroke::spring(right, 1, right + 2, 1));
  } else {
    s.add(stroke::spring(right, 2, right + 2, 2));
  }
  return s;
}

/// Number of the box, from the left, that stands for a word of `position`, or between two words.
template <class Layout>
constexpr double place_at(double word) {
  const auto last = Layout::box_of.size() - 1;
  const auto below = std::min(static_cast<std::size_t>(word > 0.0 ? word : 0.0), last);
  const std::size_t above = std::min(below + 1, last);
  const double from = Layout::box_of[below], to = Layout::box_of[above];
  return from + (to - from) * std::clamp(word - static_cast<double>(below), 0.0, 1.0);
}

/// The boxes from left to right with these values.
template <class Layout>
std::vector<Position> boxes_of(const Values& values) {
  const std::vector<Position> positions = Layout::positions(values);
  std::vector<Position> boxes(positions.size());
  for (std::size_t i = 0; i < positions.size(); ++i) boxes[Layout::box_of[i]] = positions[i];
  return boxes;
}

template <class Layout>
constexpr auto anchors() {
  std::array<Anchor, Layout::ports.size()> all{};
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Anchor at = place_of(Layout::ports[i].name, all.size());
    all[i] = {at.x, at.y > 0 ? 6.0 : -2.0};
  }
  return all;
}

}  // namespace directional
}  // namespace poise
