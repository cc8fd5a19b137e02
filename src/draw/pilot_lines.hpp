// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "draw/schematic.hpp"

namespace poise::draw {

/// Ports of a wire on the `from` side of each of its segments, by index into `wire.ports`. `anchors` has a place
/// for each port of the wire.
std::vector<std::vector<int>> ports_behind(const Wire& wire, const std::vector<Point>& anchors);

/// Marks as pilot lines the segments that lead to nothing but pilot and drain ports.
void mark_pilots(Wire& wire, const Plan& plan, const std::vector<Point>& anchors);

}  // namespace poise::draw
