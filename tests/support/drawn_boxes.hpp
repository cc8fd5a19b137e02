// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "draw/schematic.hpp"

namespace poise::drawing {

/// Something that takes room on a drawing.
struct NamedBox {
  std::string name;
  draw::Box box;
  int part = -1;  ///< whose it is; −1 of none
  int tank = -1;  ///< index of the tank mark
};

/// Symbols, labels that have words, tank marks, labels of enclosures.
std::vector<NamedBox> boxes_of(const Plan& plan, const draw::Schematic& schematic);

}  // namespace poise::drawing
