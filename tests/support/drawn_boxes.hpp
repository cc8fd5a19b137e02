// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "draw/schematic.hpp"

namespace poise::drawing {

/// How far inside its box a joined port may lie, M: hoses and junctions have a dot there.
inline constexpr double room_of_a_dot = 0.5;

/// Something that takes room on a drawing.
struct NamedBox {
  std::string name;
  draw::Box box;
  int part = -1;  ///< whose it is; −1 of none
  int tank = -1;  ///< index of the tank mark
  bool symbol = false;
};

/// Symbols, labels that have words, tank marks, labels of enclosures.
std::vector<NamedBox> boxes_of(const Plan& plan, const draw::Schematic& schematic);

}  // namespace poise::drawing
