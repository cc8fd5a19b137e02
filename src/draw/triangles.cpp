// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/triangles.hpp"

#include <algorithm>

namespace poise::draw {
namespace {

/// Twice the area to the left of the way from a over b to c.
double turn(Point a, Point b, Point c) { return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x); }

bool holds(const Triangle& t, Point p) {
  return turn(t[0], t[1], p) >= 0 && turn(t[1], t[2], p) >= 0 && turn(t[2], t[0], p) >= 0;
}

bool is_corner_of(const Triangle& t, Point p) { return std::find(t.begin(), t.end(), p) != t.end(); }

bool can_be_cut(const Triangle& t, std::span<const Point> rest) {
  return turn(t[0], t[1], t[2]) > 0 &&
         std::none_of(rest.begin(), rest.end(), [&](Point p) { return holds(t, p) && !is_corner_of(t, p); });
}

double area(std::span<const Point> shape) {
  double sum = 0.0;
  for (std::size_t i = 1; i + 1 < shape.size(); ++i) sum += turn(shape[0], shape[i], shape[i + 1]);
  return sum;
}

}  // namespace

std::vector<Triangle> triangles_of(std::span<const Point> shape) {
  std::vector<Point> rest(shape.begin(), shape.end());
  if (area(shape) < 0) std::reverse(rest.begin(), rest.end());
  std::vector<Triangle> all;
  while (rest.size() >= 3) {
    const std::size_t n = rest.size();
    std::size_t corner = 0;
    const auto cut_at = [&](std::size_t i) {
      return Triangle{rest[(i + n - 1) % n], rest[i], rest[(i + 1) % n]};
    };
    while (corner < n && !can_be_cut(cut_at(corner), rest)) ++corner;
    if (corner == n) {
      corner = 0;  // only corners without area are left
    } else {
      all.push_back(cut_at(corner));
    }
    rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(corner));
  }
  return all;
}

}  // namespace poise::draw
