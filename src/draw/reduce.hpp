// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <vector>

#include "draw/geometry.hpp"

namespace poise::draw {

/// A curve as fine as paper shows it: within each column of `width` mm its first, lowest, highest and last
/// point, in the order in which they come, so that no peak is lost; of these, without those that lie within 5
/// µm of the straight piece that is drawn in their place. The points' x must not fall.
std::vector<Point> reduced(std::span<const Point> curve, double width);

}  // namespace poise::draw
