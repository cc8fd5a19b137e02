// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>

#include "quantity/quantity.hpp"

namespace poise::units {

/// Regular expressions (ECMA 262) of what `read` takes, for programs that check a text without it: never
/// narrower than `read`, and not much wider. Without anchors, and each alternative in brackets.

/// Blanks, as many as one likes or none; of the kinds that may stand inside a value, or also at its ends.
std::string blanks_pattern();
std::string ends_pattern();

/// "210", "-3.5", "1e-4".
std::string number_pattern();

/// The units that measure a quantity and that people use: those of the catalogue that are one symbol, and the
/// usual ones made of several. Empty for a plain number.
std::string usual_units_pattern(Quantity quantity);

/// Any unit made of several known symbols ("kgf/mm2"), whatever it measures.
std::string compound_unit_pattern();

/// Every usual unit that is made of several symbols, whatever it measures, and pressures with a "g" for
/// gauge, which measure nothing.
std::string usual_compounds_pattern();

/// A number and, behind it, a usual unit of the quantity; a plain number where it takes one.
std::string usual_value_pattern(Quantity quantity);

/// A text in which only this text stands, however its signs are spelled.
std::string spelled_pattern(std::string_view plain_text);

}  // namespace poise::units
