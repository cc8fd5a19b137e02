// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "draw/figure.hpp"

namespace poise::draw {

/// The four ways on the grid, as quarter turns from "right".
enum Way { way_right = 0, way_up = 1, way_left = 2, way_down = 3 };
constexpr Way opposite(int way) { return static_cast<Way>((way + 2) % 4); }
constexpr bool is_level(int way) { return way % 2 == 0; }
inline Way way_of(Side side) {
  switch (side) {
    case Side::right:
      return way_right;
    case Side::high:
      return way_up;
    case Side::left:
      return way_left;
    case Side::low:
      return way_down;
  }
  return way_up;
}

/// Whole-module places and what stands on them.
struct Grid {
  struct Spot {
    int level = -1, upright = -1;  ///< the wire that runs through
    int knot = -1;                 ///< the wire that ends, turns or branches here
    int kept = -1;                 ///< the wire that this place ahead of its pin is kept for
    bool taken = false;            ///< by a symbol or words
    bool near = false;             ///< beside one
  };
  static constexpr int foreign_lead = 1 << 20;  ///< stands for lines that belong to no wire

  int left = 0, low = 0, width = 0, height = 0;
  std::vector<Spot> spots;

  explicit Grid(const Box& box);
  int index(Point p) const { return index(static_cast<int>(p.x), static_cast<int>(p.y)); }
  int index(int x, int y) const { return (y - low) * width + (x - left); }
  Point place(int i) const {
    const int x = i % width + left, y = i / width + low;
    return {static_cast<double>(x), static_cast<double>(y)};
  }
  bool inside(Point p) const { return p.x >= left && p.y >= low && p.x < left + width && p.y < low + height; }
  int step(int way) const {
    return way == way_right ? 1 : way == way_left ? -1 : way == way_up ? width : -width;
  }
  /// Whether a step from a spot stays on the grid.
  bool may_step(int i, int way) const;

  void take(const Box& box);
  /// Marks a straight piece of a wire and its ends; `wire` −1 wipes it.
  void lay(const Segment& s, int wire);
};

}  // namespace poise::draw
