// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "search/bench.hpp"

namespace poise::search {

/// One promise of a conflict.
struct Side {
  std::string name, promised;
  std::string gives;  ///< what it comes to where all others of the conflict hold: "highest 241 bar"
  std::optional<double>
      short_by{};  ///< how far it is then from holding, in `quantity`, SI, positive; none: no number
  Quantity quantity = Quantity::none;
};

/// A smallest set of promises that cannot hold together, whatever the open values are; without any one of
/// them the others can.
struct Conflict {
  std::vector<Side> sides;
};

/// Looks for the smallest set that no trial has held together, and tries on purpose to hold it; what is held
/// after all is no conflict, and the search goes on with the next. `most_runs` bounds the runs it may add.
std::vector<Conflict> conflicts_of(Bench& bench, const Trial& best, long most_runs);

}  // namespace poise::search
