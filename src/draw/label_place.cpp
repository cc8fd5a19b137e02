// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/label_place.hpp"

#include <algorithm>
#include <limits>

namespace poise::draw {
namespace {

/// Whether a straight piece touches a box: it is cut to the box side by side (Liang and Barsky's way).
bool touches(Point a, Point b, const Box& box) {
  double from = 0.0, to = 1.0;
  const auto cut_by = [&](double along, double room) {
    if (along == 0.0) return room >= 0.0;
    const double share = room / along;
    (along < 0.0 ? from : to) = along < 0.0 ? std::max(from, share) : std::min(to, share);
    return from <= to;
  };
  const double dx = b.x - a.x, dy = b.y - a.y;
  return cut_by(-dx, a.x - box.left) && cut_by(dx, box.right - a.x) && cut_by(-dy, a.y - box.low) &&
         cut_by(dy, box.high - a.y);
}

int crossings(const Box& box, std::span<const std::vector<Point>> paths) {
  int count = 0;
  for (const auto& path : paths) {
    // The points' x does not fall: only those beside the box can meet it.
    const auto first = std::ranges::lower_bound(path, box.left, {}, &Point::x);
    for (auto b = first == path.begin() ? path.begin() + 1 : first; b < path.end(); ++b) {
      if (touches(*(b - 1), *b, box)) ++count;
      if (b->x > box.right) break;
    }
  }
  return count;
}

}  // namespace

std::optional<std::size_t> best_place(std::span<const Text> places, const Box& frame,
                                      std::span<const Box> taken, std::span<const std::vector<Point>> paths) {
  std::optional<std::size_t> best;
  int fewest = std::numeric_limits<int>::max();
  for (std::size_t i = 0; i < places.size() && fewest > 0; ++i) {
    const Box box = box_of(places[i]);
    if (box.left < frame.left || box.right > frame.right || box.low < frame.low || box.high > frame.high)
      continue;
    if (std::ranges::any_of(taken, [&](const Box& other) { return overlap(box.grown(0.2), other); }))
      continue;
    const int count = crossings(box.grown(0.2), paths);
    if (count >= fewest) continue;
    fewest = count;
    best = i;
  }
  return best;
}

}  // namespace poise::draw
