// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "search/bench.hpp"

namespace poise::search {

/// Goes on from a point so that the promises hold with most room at the bad end of every tolerance. From then
/// on the bench judges at the corners that were found: what it says of a trial is what is left there.
const Trial& harden(Bench& bench, const Point& from, const Job& job);

}  // namespace poise::search
