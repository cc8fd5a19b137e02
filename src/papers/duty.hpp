// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "circuit/plan.hpp"
#include "trace/trace.hpp"

namespace poise::papers {

/// What each part of a plan went through in a run, in the plan's order: pressures, positions and outputs at
/// their extremes; flows and speeds as they last for a tenth of a second in all, since a shorter blow sizes
/// nothing. Of a run without a row, or of a part without signals, the lists are empty.
std::vector<Duty> duties_of(const Plan& plan, const Trace& trace);

}  // namespace poise::papers
