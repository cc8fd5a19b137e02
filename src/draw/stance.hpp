// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "circuit/plan.hpp"
#include "draw/geometry.hpp"
#include "draw/links.hpp"
#include "draw/schematic.hpp"

namespace poise::draw {

/// The side of its symbol that a port's line leaves to.
enum class Side { left, right, low, high };

/// The side of `box` that `at` lies on, or is nearest to.
Side side_of(Point at, const Box& box);

/// Extent of a kind's symbol at rest with its anchors, M.
Box rest_box(const Kind& kind);

/// How a part stands, by the ports that carry its oil: `low` and `high` as its symbol is drawn in its room.
struct Stance {
  std::vector<int> low, high;  ///< ports
  Turn turn;                   ///< from the symbol to this: sideways symbols are stood upright
  bool turns_over = false;     ///< may be drawn upside down: oil passes straight through it
};
Stance stance_of(const PlannedPart& part);

/// Upside down, left and right kept; and left for right.
Turn turned_over(Turn turn);
Turn mirrored(Turn turn);

/// Where the parts stand, from the bottom up: turned so that oil rises from the pumps to the actuators and
/// falls to the reservoirs, in rows such that each line rises from the row below it to the row above.
struct Levels {
  std::vector<Turn> turn;
  std::vector<int> row;    ///< 0 is the lowest
  std::vector<int> visit;  ///< the order in which the oil gets to them, branch by branch
};
Levels levels_of(const Plan& plan, const Links& links);

}  // namespace poise::draw
