// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string_view>

#include "quantity/quantity.hpp"

namespace poise::units {

/// The straight line from a number in some unit to SI: factor times number, plus zero.
struct Scale {
  double factor = 1.0;
  double zero = 0.0;  ///< SI value of the unit's zero; only temperatures have one

  double to_si(double number) const { return factor * number + zero; }
  double from_si(double value) const { return (value - zero) / factor; }
};

/// The scale of a unit text (plain letters, as plain() leaves them) where the unit measures the quantity,
/// else nothing. Masses measure forces by their weight; 1/s measures rotations and stroke rates. Safe from
/// several threads.
std::optional<Scale> scale(std::string_view unit, Quantity quantity);

/// What the unit measures, "mass" or "dynamic viscosity"; empty when that has no name here.
std::string_view measured_by(std::string_view unit);

/// Whether the text is a unit at all, of whatever kind.
bool is_unit(std::string_view unit);

}  // namespace poise::units
