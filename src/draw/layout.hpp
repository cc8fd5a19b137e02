// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "draw/figure.hpp"
#include "draw/router.hpp"

namespace poise::draw {

/// Items in their places and the lines between them.
struct Layout {
  std::vector<Item> items;
  Routes routes;
};

/// A place given by hand: the symbol of `part` stands at `at`.
struct HandPlace {
  int part = 0;
  Point at;
};

/// Sets items down in their rows and joins their pins; more room is given until every line finds a way. Items
/// placed by hand stand where they are wanted, what they would cover moves aside.
Layout lay_out(const std::vector<Item>& items, int wires, std::span<const HandPlace> by_hand);

/// Items that belong to one assembly as one item in an enclosure, its lines inside drawn, the lines that
/// leave it at pins on its edge.
Item enclose(const std::vector<Item>& members, const std::vector<Item>& others, int wires,
             const std::string& name);

}  // namespace poise::draw
