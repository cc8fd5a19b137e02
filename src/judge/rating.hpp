// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "circuit/rating.hpp"
#include "judge/verdict.hpp"

namespace poise {

/// What is left to a rating, Pa; negative above its alarm.
double margin(const Rating& rating, double pressure);

/// Pressures at the existing oil ports of the parts whose rating is given.
std::vector<Signal> rated_pressures(const Plan& plan);

/// "No part above its rated pressure": the worst part decides; none where no part has a rating.
std::optional<Finding> judged_ratings(const Job& job, const Trace& trace);

/// A sentence on the parts that could have a rating and have none; empty where there are none.
std::string caution_on_ratings(const Plan& plan);

}  // namespace poise
