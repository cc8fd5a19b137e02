// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "circuit/plan.hpp"

namespace poise::draw {

/// Whether oil moves something in this part: a cylinder, clamp, support, motor, accumulator. A part that only
/// feels a motion, as a cam valve does, brings no body of its own.
bool is_actuator(const PlannedPart& part, const Oil& oil);

/// Whether it opens and shuts by itself as the pressures tell it.
bool opens_by_itself(const Kind& kind);

/// What a kind is called on paper: "directional 4/3", "swing clamp".
std::string kind_in_words(const Kind& kind);

}  // namespace poise::draw
