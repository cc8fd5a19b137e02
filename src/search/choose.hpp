// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <utility>
#include <vector>

#include "search/bench.hpp"

namespace poise::search {

/// How discrete choices are ranked and how long they are looked for.
struct ChoiceWish {
  double enough = 0.1;    ///< a smallest share of this or more is as good as any
  long most_runs = 1000;  ///< no new choice is tried after this many
  std::vector<std::pair<std::size_t, double>> banned{};  ///< value and choice that must not be taken
  int climb_iterations = 4;                              ///< of the settings, for each choice that looks good
};

/// How large the sizes of a point are: places in their ranges as shares, summed.
double size_of(const std::vector<OpenValue>& values, const Point& point);
/// What the models of a point cost together, in the currency of the lists.
double cost_of(const std::vector<OpenValue>& values, const Point& point);

/// Whether a trial is the better choice: by fit up to `enough`, then by cost, then by size.
bool better_choice(const Bench& bench, const Trial& a, const Trial& b, double enough);

/// The best choices near a trial, settings brought along. All combinations are tried where they are few and
/// no setting is open; else one choice after the other is moved to its neighbours, while that gets better.
const Trial& choose(Bench& bench, const Trial& start, const ChoiceWish& wish);

}  // namespace poise::search
