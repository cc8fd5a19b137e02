// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "draw/geometry.hpp"
#include "parts/symbol.hpp"

namespace poise::workshop {

inline constexpr double same = 1e-9;

/// How far a place is from the nearest point of a straight stroke.
inline double distance(double x, double y, double x2, double y2, const Anchor& a) {
  const double dx = x2 - x, dy = y2 - y, length = std::hypot(dx, dy);
  if (length == 0.0) return std::hypot(a.x - x, a.y - y);
  const double along = std::clamp(((a.x - x) * dx + (a.y - y) * dy) / (length * length), 0.0, 1.0);
  return std::hypot(a.x - x - along * dx, a.y - y - along * dy);
}

/// Whether a line or the edge of a box runs through a port's place.
inline bool touches(const Stroke& s, const Anchor& a) {
  if (s.form == Stroke::Form::line) return distance(s.x, s.y, s.x2, s.y2, a) < same;
  if (s.form != Stroke::Form::box) return false;
  return std::min({distance(s.x, s.y, s.x2, s.y, a), distance(s.x, s.y2, s.x2, s.y2, a),
                   distance(s.x, s.y, s.x, s.y2, a), distance(s.x2, s.y, s.x2, s.y2, a)}) < same;
}

/// The sides of the extent, left, right, low, high, on which an anchor lies.
inline std::vector<int> sides_of(const Anchor& a, const draw::Box& all) {
  const std::array from{a.x - all.left, all.right - a.x, a.y - all.low, all.high - a.y};
  std::vector<int> sides;
  for (int side = 0; side < 4; ++side) {
    if (from[side] < same) sides.push_back(side);
  }
  return sides;
}

inline bool alike(const Stroke& a, const Stroke& b) {
  return a.form == b.form && a.style == b.style && a.x == b.x && a.y == b.y && a.x2 == b.x2 && a.y2 == b.y2;
}

}  // namespace poise::workshop
