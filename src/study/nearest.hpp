// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "study/row.hpp"
#include "study/spread.hpp"

namespace poise::study {

/// How a promise feels a loose value: what the margin loses where it is off all the way down or up, by
/// straight lines; negative where it gains.
struct Pull {
  double down = 0.0, up = 0.0;
};

/// A machine near the stated one that breaks a promise.
struct Nearest {
  bool found = false;  ///< false: nothing was seen to break within `farthest_reach`
  double reach = 0.0;  ///< of its tolerance that the value uses which is off most; above 1 outside of them
  std::vector<double> off;  ///< of each loose value; 0 where it need not be off
  Kept kept;                ///< what becomes of the promise there
};

/// How far beyond the tolerances is looked.
inline constexpr double farthest_reach = 3.0;

/// The values that take a margin to nothing with the least sum of squared shares of their tolerances, by
/// straight lines; values that do not matter stay as stated. Where all together do not take it there within
/// their tolerances: those that matter at their bad ends. Empty where nothing pulls.
std::vector<double> foretold(double margin, const std::vector<Pull>& pulls);

/// Runs a machine of a spread and says what became of one promise; none where it was stopped.
using RunPromise = std::function<std::optional<Kept>(const std::vector<double>& off)>;

/// Looks for the nearest machine that breaks a promise: along the way that straight lines foretell, and,
/// where that does not break or `known` (the nearest broken one of those run) is nearer, along the way to
/// that one, with what it does not need put back. The end is where it just breaks, found by halving. None
/// where it was stopped.
std::optional<Nearest> nearest(double margin, const std::vector<Pull>& pulls,
                               const std::vector<double>* known, const RunPromise& run);

}  // namespace poise::study
