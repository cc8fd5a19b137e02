// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "draw/geometry.hpp"

namespace poise::draw {

using Triangle = std::array<Point, 3>;

/// A closed shape that does not cross itself, cut into triangles: at each step an outward corner with no
/// other corner in it is cut off.
std::vector<Triangle> triangles_of(std::span<const Point> shape);

}  // namespace poise::draw
