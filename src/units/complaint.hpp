// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>

#include "quantity/quantity.hpp"

namespace poise::units {

/// "a pressure", "an angle".
std::string with_article(std::string_view name);

/// `expected a pressure, such as "210 bar"`.
std::string expected(Quantity quantity);

/// What is wrong with the way the number is written (decimal comma, fraction, several numbers), or nothing.
/// `digits` is the number as far as it could be read, `rest` what follows it.
std::string number_complaint(std::string_view text, std::string_view digits, std::string_view rest,
                             Quantity quantity);

/// Why the unit does not measure the quantity, and what was likely meant. Only for a unit of which that is
/// so.
std::string unit_complaint(std::string_view text, std::string_view digits, std::string_view unit,
                           Quantity quantity);

}  // namespace poise::units
