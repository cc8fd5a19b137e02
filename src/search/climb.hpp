// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "search/bench.hpp"

namespace poise::search {

/// How far and how long a climb may go.
struct ClimbWish {
  std::vector<std::size_t> moving;  ///< which values move; the others stay
  double radius = 0.2;              ///< first step, as a share of each value's range
  int iterations = 12;
  bool next_smallest = true;        ///< when the smallest share is at its best, go on with the next
  double rules_at_most = no_limit;  ///< weight of the rules that may stay broken (`Trial::rules`)
  /// The promises that count, by their place among the shares; empty: all of them, and the rules of the
  /// trade.
  std::vector<std::size_t> only{};
  /// Of those, some that are not lifted but must hold.
  std::vector<std::size_t> kept{};
};

/// Makes the smallest share as large as it gets nearby, then the next smallest without losing that, and so
/// on. Sequential linear models: slopes by differences, the step within a trust region that lifts the smooth
/// minimum of the shares most (NLopt, SLSQP), kept if it proves better. A step that breaks a rule of the
/// trade or a promise is not better.
const Trial& climb(Bench& bench, const Trial& start, const ClimbWish& wish);

}  // namespace poise::search
