// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "search/bench.hpp"

namespace poise::search {

/// Points spread evenly over all values (Sobol's sequence, the middle first); sizes stand between their
/// choices.
std::vector<Point> spread_out(const std::vector<OpenValue>& values, std::size_t count);

/// The trials of such points, best first.
std::vector<const Trial*> explore(Bench& bench, std::size_t count);

}  // namespace poise::search
