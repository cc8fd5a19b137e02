// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/reduce.hpp"

#include <array>
#include <cmath>

namespace poise::draw {
namespace {

/// A corner that is nearer than this to the straight line between its neighbours does not show, mm.
constexpr double flat = 0.005;

void add(std::vector<Point>& curve, Point p) {
  if (!curve.empty() && curve.back() == p) return;
  if (curve.size() >= 2) {
    const Point a = curve[curve.size() - 2], b = curve.back();
    const double along = p.x - a.x, up = p.y - a.y, length = std::hypot(along, up);
    const double off = length > 0.0 ? std::abs((b.x - a.x) * up - (b.y - a.y) * along) / length : 1.0;
    const bool between =
        (b.x - a.x) * along + (b.y - a.y) * up >= 0.0 && std::hypot(b.x - a.x, b.y - a.y) <= length;
    // Only level stretches: dropping points one by one along a slow bend would cut it.
    if (between && off < flat && std::abs(up) < flat && std::abs(b.y - a.y) < flat) curve.pop_back();
  }
  curve.push_back(p);
}

}  // namespace

std::vector<Point> reduced(std::span<const Point> curve, double width) {
  std::vector<Point> kept;
  for (std::size_t i = 0; i < curve.size();) {
    const double column = std::floor(curve[i].x / width);
    std::size_t low = i, high = i, end = i;
    for (; end < curve.size() && std::floor(curve[end].x / width) == column; ++end) {
      if (curve[end].y < curve[low].y) low = end;
      if (curve[end].y > curve[high].y) high = end;
    }
    for (const std::size_t k : std::array{i, std::min(low, high), std::max(low, high), end - 1})
      add(kept, curve[k]);
    i = end;
  }
  return kept;
}

}  // namespace poise::draw
