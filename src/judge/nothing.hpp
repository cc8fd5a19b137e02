// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "quantity/quantity.hpp"

namespace poise {

/// What a circuit at rest creeps by at most in a run, SI: what is no more than this is shown as nothing. The
/// flow is a third of a tight seat's "5 drops/min"; the jobs of the house creep by a fifth of it.
double creep_of(Quantity quantity);
bool is_nothing(double value, Quantity quantity);

}  // namespace poise
