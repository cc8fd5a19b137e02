// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <algorithm>

namespace poise::draw {

/// A place on the drawing, x right, y up. A schematic counts in modules M, a sheet in millimetres.
struct Point {
  double x = 0.0, y = 0.0;
  friend bool operator==(const Point&, const Point&) = default;
};

struct Box {
  double left = 0.0, low = 0.0, right = 0.0, high = 0.0;

  double width() const { return right - left; }
  double height() const { return high - low; }
  Point centre() const { return {0.5 * (left + right), 0.5 * (low + high)}; }
  Box grown(double by) const { return {left - by, low - by, right + by, high + by}; }
  Box moved(Point by) const { return {left + by.x, low + by.y, right + by.x, high + by.y}; }
  friend bool operator==(const Box&, const Box&) = default;
};

/// The least box around both.
inline Box hull(const Box& a, const Box& b) {
  return {std::min(a.left, b.left), std::min(a.low, b.low), std::max(a.right, b.right),
          std::max(a.high, b.high)};
}

/// Whether their insides meet; boxes that only touch do not overlap.
inline bool overlap(const Box& a, const Box& b) {
  return a.left < b.right && b.left < a.right && a.low < b.high && b.low < a.high;
}

}  // namespace poise::draw
