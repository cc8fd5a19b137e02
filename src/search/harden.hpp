// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "search/bench.hpp"

namespace poise::search {

/// Goes on from a point so that the promises hold with most room where the tolerances are against them. From
/// then on the bench judges at the corners that were found: what it says of a trial is what is left there.
/// Where nothing holds there with the choices at hand, others are looked for (`choose`, with what is
/// `enough`).
const Trial& harden(Bench& bench, const Point& from, const Job& job, double enough);

}  // namespace poise::search
