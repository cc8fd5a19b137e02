// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "search/open_value.hpp"

namespace poise::search {

/// Where a value may lie by closed forms, SI, and what to begin with.
struct Range {
  double low = 0.0, high = 0.0;
  std::optional<double> guess{};
};
/// Of a parameter of a part of the plan, as `open_values_of` has it.
Range range_of(const Job& job, int part, int parameter);

/// The open values of a job, in its order, each with the range or the choices that closed forms leave it:
/// - a pressure setting lies below the highest rating that a source of the circuit has, with a fifth for what
///   is set above it; without ratings, in its parameter's range;
/// - a needle stands between a hundredth of its turns and all of them;
/// - a bore's area gives the greatest force that is asked of its rod, the weight on it included, at the
/// highest
///   pressure, and at a thirtieth of it at most;
/// - a stroke is as long as the positions that steps and requirements ask of it;
/// - a flow fills all actuators at most three times over in the shortest time that is asked for, and at least
///   to a tenth in the whole cycle;
/// - a line's bore lets the pump's flow pass with 0.3 to 30 m/s.
/// Everything else has the range of its parameter. Each has a guess to begin with, after the same formulas.
std::vector<OpenValue> open_values_of(const Job& job);

}  // namespace poise::search
