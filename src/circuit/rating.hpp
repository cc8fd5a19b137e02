// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string_view>

#include "parts/kind.hpp"

namespace poise {

/// A rating as it counts: above `alarm` it is exceeded, margin is what is left to `limit`. They differ only
/// within a pressure class, whose two members (700 bar and 10,000 psi) the trade takes for one; common
/// practice.
struct Rating {
  double limit = 0.0;  ///< Pa, gauge
  double alarm = 0.0;  ///< Pa, gauge
};

/// The classes are 70, 210, 350 and 700 bar with 1,000, 3,000, 5,000 and 10,000 psi; a rating within 0.1 % of
/// either member is of the class.
Rating rating_from(double pressure);

/// The name of the parameter that says what pressure a kind of part stands; empty where it has none.
std::string_view rating_parameter(const Kind& kind);

}  // namespace poise
