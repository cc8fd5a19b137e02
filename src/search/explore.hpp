// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "search/bench.hpp"

namespace poise::search {

/// The guess of every value, then points spread evenly (Sobol's sequence) in turn near the guess and over all
/// there is; sizes stand between their choices.
std::vector<Point> spread_out(const std::vector<OpenValue>& values, std::size_t count);

/// The trials of such points, best first.
std::vector<const Trial*> explore(Bench& bench, std::size_t count);

}  // namespace poise::search
