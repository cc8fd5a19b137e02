// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <algorithm>

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

/// Strokes as they are counted up; a valve has fewer than it can hold.
struct Sketch {
  std::array<Stroke, 64> strokes{};
  std::size_t count = 0;
  constexpr void add(const Stroke& s) { strokes[count++] = s; }
  template <std::size_t N>
  constexpr void add(const std::array<Stroke, N>& all) {
    for (const Stroke& s : all) add(s);
  }
};

/// One position's box with its open paths as arrows and its shut ports as bars.
template <class Layout>
constexpr void draw_box(Sketch& sketch, const Position& position, double left) {
  sketch.add(stroke::box(left, 0, left + 4, 4));
  std::array<bool, Layout::ports.size()> joined{};
  for (int i = 0; i < position.count; ++i) {
    const auto from = static_cast<std::size_t>(position.paths[i].from);
    const auto to = static_cast<std::size_t>(position.paths[i].to);
    const Anchor a = place_of(Layout::ports[from].name, joined.size());
    const Anchor b = place_of(Layout::ports[to].name, joined.size());
    sketch.add(stroke::arrow(left + a.x, a.y, left + b.x, b.y));
    joined[from] = joined[to] = true;
  }
  for (std::size_t i = 0; i < joined.size(); ++i) {
    const Anchor at = place_of(Layout::ports[i].name, joined.size());
    if (!joined[i]) sketch.add(pieces::shut_port(left + at.x, at.y, at.y > 0 ? -1 : 1));
  }
}

/// A box per position, leads at the rest position, a solenoid where it is shifted to, springs that bring it
/// back.
template <class Layout>
constexpr Sketch sketch() {
  Sketch s;
  const auto count = Layout::boxes.size();
  const double left = -4.0 * static_cast<double>(Layout::rest),
               right = left + 4.0 * static_cast<double>(count);
  for (std::size_t i = 0; i < count; ++i) {
    draw_box<Layout>(s, Layout::boxes[i], left + 4.0 * static_cast<double>(i));
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

template <class Layout>
constexpr auto symbol() {
  constexpr Sketch drawn = sketch<Layout>();
  std::array<Stroke, drawn.count> strokes{};
  std::copy_n(drawn.strokes.begin(), drawn.count, strokes.begin());
  return strokes;
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
