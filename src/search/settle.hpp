// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "search/bench.hpp"

namespace poise::search {

/// The best trial near this one whose settings are such as people set (`settable`), at the coarsest degree
/// that keeps nine tenths of the smallest share and breaks nothing more. Every trial that is judged has been
/// run with the rounded values.
const Trial& settle(Bench& bench, const Trial& top, const units::World& world);

}  // namespace poise::search
