// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "desk/json.hpp"
#include "desk/proof.hpp"

namespace poise::desk {

/// The curves of a proof, one panel for each quantity, all curves of a panel over the same moments: those at
/// which one of them turns as far as a screen shows. Peaks are kept; a jump has its moment twice.
Json panels(const Proof& proof);

/// A number in five figures: more than a screen shows, and short on its way there.
double short_number(double value);

}  // namespace poise::desk
