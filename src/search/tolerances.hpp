// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "search/bench.hpp"

namespace poise::search {

/// For each promise the corner of all tolerances at which it has least room, as straight lines foretell it
/// from one run per value about a point: each value at the end that takes room away, left out where it
/// matters nothing. The same corner stands once.
std::vector<Corner> bad_corners(Bench& bench, const Point& about, const std::vector<Loose>& loose);

}  // namespace poise::search
