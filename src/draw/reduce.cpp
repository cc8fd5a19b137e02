// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/reduce.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace poise::draw {
namespace {

/// What is nearer than this to the straight piece that is drawn in its place does not show, mm.
constexpr double flat = 0.005;

/// How far a point is from the straight piece between two others.
double off(Point p, Point a, Point b) {
  const double along = b.x - a.x, up = b.y - a.y, square = along * along + up * up;
  if (square == 0.0) return std::hypot(p.x - a.x, p.y - a.y);
  const double share = std::clamp(((p.x - a.x) * along + (p.y - a.y) * up) / square, 0.0, 1.0);
  return std::hypot(p.x - a.x - share * along, p.y - a.y - share * up);
}

/// First, lowest, highest and last point of each column.
std::vector<Point> corners_of_columns(std::span<const Point> curve, double width) {
  std::vector<Point> kept;
  for (std::size_t i = 0; i < curve.size();) {
    const double column = std::floor(curve[i].x / width);
    std::size_t low = i, high = i, end = i;
    for (; end < curve.size() && std::floor(curve[end].x / width) == column; ++end) {
      if (curve[end].y < curve[low].y) low = end;
      if (curve[end].y > curve[high].y) high = end;
    }
    for (const std::size_t k : std::array{i, std::min(low, high), std::max(low, high), end - 1}) {
      if (kept.empty() || !(kept.back() == curve[k])) kept.push_back(curve[k]);
    }
    i = end;
  }
  return kept;
}

/// Marks the points that a stretch needs so that all between stay within `flat` of it (Douglas and Peucker,
/// 1973).
void mark_needed(std::span<const Point> curve, std::size_t first, std::size_t last,
                 std::vector<bool>& needed) {
  std::vector<std::pair<std::size_t, std::size_t>> stretches{{first, last}};
  while (!stretches.empty()) {
    const auto [from, to] = stretches.back();
    stretches.pop_back();
    needed[from] = needed[to] = true;
    double most = flat;
    std::size_t farthest = from;
    for (std::size_t k = from + 1; k < to; ++k) {
      if (const double here = off(curve[k], curve[from], curve[to]); here >= most) most = here, farthest = k;
    }
    if (farthest == from) continue;
    stretches.emplace_back(from, farthest);
    stretches.emplace_back(farthest, to);
  }
}

}  // namespace

std::vector<Point> reduced(std::span<const Point> curve, double width) {
  const std::vector<Point> corners = corners_of_columns(curve, width);
  if (corners.size() < 3) return corners;
  const auto [low, high] = std::ranges::minmax_element(corners, {}, &Point::y);
  std::array<std::size_t, 4> ends{0, static_cast<std::size_t>(low - corners.begin()),
                                  static_cast<std::size_t>(high - corners.begin()), corners.size() - 1};
  std::ranges::sort(ends);
  std::vector<bool> needed(corners.size());
  for (std::size_t i = 1; i < ends.size(); ++i) mark_needed(corners, ends[i - 1], ends[i], needed);
  std::vector<Point> kept;
  for (std::size_t k = 0; k < corners.size(); ++k) {
    if (needed[k]) kept.push_back(corners[k]);
  }
  return kept;
}

}  // namespace poise::draw
