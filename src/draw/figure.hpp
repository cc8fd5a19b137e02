// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <vector>

#include "draw/stance.hpp"

namespace poise::draw {

/// Where a line leaves a figure.
struct Pin {
  PortOf port;
  int wire = -1;
  Point at;
  Side side = Side::low;
};

/// A part with the marks of the reservoir at its ports and the words beside it.
struct Figure {
  PlacedSymbol symbol;
  Box label;  ///< no width: nothing to say
  std::vector<TankMark> tanks;
};

/// What is set down as one piece: a part with its words, and the loads on its rod or the motor on its shaft
/// beside it. Places are relative to the origin of the first figure's symbol.
struct Item {
  std::vector<Figure> figures;
  std::vector<Pin> pins;
  Box box;  ///< around everything, with the room that its pins at the sides need
  int row = 0, visit = 0;
};

/// All parts of a plan as items, `mirror[part]` turning left to right what may be so turned.
std::vector<Item> items_of(const Plan& plan, const Links& links, const Levels& levels,
                           std::span<const Words> words, const std::vector<bool>& mirror);

/// Whether a part may be drawn left to right: pilots and drains of it would change sides, nothing else.
bool may_mirror(const PlannedPart& part);

/// The item at another place.
Item moved(Item item, Point by);

}  // namespace poise::draw
