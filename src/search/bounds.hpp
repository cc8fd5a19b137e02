// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "search/open_value.hpp"

namespace poise::search {

/// The open values of a job, in its order, each with the range or the choices that closed forms leave it:
/// - a pressure setting lies below the highest rating that a source of the circuit has, with a fifth for what
///   is set above it; without ratings, in its parameter's range;
/// - a needle stands between a hundredth of its turns and all of them;
/// - a bore's area carries the weight on its rod at the highest pressure, and not at a hundredth of it;
/// - a stroke is as long as the positions that steps and requirements ask of it;
/// - a flow fills all actuators in the shortest time that is asked for at most three times over, and the
///   smallest of them in the whole cycle at least to a third;
/// - a line's bore lets the pump's flow pass with 0.3 to 30 m/s.
/// Everything else has the range of its parameter.
std::vector<OpenValue> open_values_of(const Job& job);

}  // namespace poise::search
