// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <set>
#include <string>
#include <string_view>

#include "parts/working.hpp"

namespace poise::workshop {

/// What a formula of a calculation comes to, read from its text: an equation of symbols, numbers, π, + − · /,
/// brackets, √(…), ², ³ and powers such as ^0.5. Throws std::runtime_error where it is not one.
struct Evaluated {
  std::string left;             ///< symbol before the equals sign
  double value = 0.0;           ///< of the right side
  std::set<std::string> named;  ///< symbols on the right side
};
Evaluated evaluate(std::string_view formula, const std::vector<Term>& terms);

}  // namespace poise::workshop
