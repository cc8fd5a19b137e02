// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/grid.hpp"

#include <cmath>

namespace poise::draw {

Grid::Grid(const Box& box)
    : left(static_cast<int>(std::floor(box.left))),
      low(static_cast<int>(std::floor(box.low))),
      width(static_cast<int>(std::ceil(box.right)) - left + 1),
      height(static_cast<int>(std::ceil(box.high)) - low + 1),
      spots(static_cast<std::size_t>(width) * static_cast<std::size_t>(height)) {}

bool Grid::may_step(int i, int way) const {
  const int x = i % width, y = i / width;
  switch (way) {
    case way_right:
      return x + 1 < width;
    case way_left:
      return x > 0;
    case way_up:
      return y + 1 < height;
    default:
      return y > 0;
  }
}

void Grid::take(const Box& box) {
  const auto each = [&](const Box& b, auto&& mark) {
    for (int y = static_cast<int>(std::ceil(b.low)); y <= static_cast<int>(std::floor(b.high)); ++y) {
      for (int x = static_cast<int>(std::ceil(b.left)); x <= static_cast<int>(std::floor(b.right)); ++x) {
        if (inside({static_cast<double>(x), static_cast<double>(y)})) mark(spots[index(x, y)]);
      }
    }
  };
  each({std::floor(box.left), std::floor(box.low), std::ceil(box.right), std::ceil(box.high)},
       [](Spot& s) { s.taken = true; });
  each(box.grown(1.0), [](Spot& s) { s.near = true; });
}

void Grid::lay(const Segment& s, int wire) {
  const bool level = s.from.y == s.to.y;
  const int from = index(s.from), to = index(s.to);
  const int way = level ? (to > from ? way_right : way_left) : (to > from ? way_up : way_down);
  for (int i = from; i != to; i += step(way)) {
    if (i == from) continue;
    (level ? spots[i].level : spots[i].upright) = wire;
  }
  spots[from].knot = wire;
  spots[to].knot = wire;
}

}  // namespace poise::draw
