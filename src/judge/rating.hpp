// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "judge/verdict.hpp"

namespace poise {

/// A rating as it counts: above `alarm` it is exceeded, margin is what is left to `limit`. They differ only
/// within a pressure class, whose two members (700 bar and 10,000 psi) the trade takes for one; common
/// practice.
struct Rating {
  double limit = 0.0;  ///< Pa, gauge
  double alarm = 0.0;  ///< Pa, gauge

  double margin(double pressure) const;
};

/// The classes are 70, 210, 350 and 700 bar with 1,000, 3,000, 5,000 and 10,000 psi; a rating within 0.1 % of
/// either member is of the class.
Rating rating_from(double pressure);

/// The name of the parameter that says what pressure a kind of part stands; empty where it has none.
std::string_view rating_parameter(const Kind& kind);

/// Pressures at the existing oil ports of the parts whose rating is given.
std::vector<Signal> rated_pressures(const Plan& plan);

/// "No part above its rated pressure": the worst part decides; none where no part has a rating.
std::optional<Finding> judged_ratings(const Job& job, const Trace& trace);

/// A sentence on the parts that could have a rating and have none; empty where there are none.
std::string caution_on_ratings(const Plan& plan);

}  // namespace poise
