// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "diagnose/reading.hpp"
#include "study/fault_place.hpp"

namespace poise::diagnose {

/// How a fault usually comes about; common practice, after the habits of the trade: after work things are set
/// wrong, exchanged, left open and full of air; slowly comes what wears and clogs; suddenly what sticks,
/// bursts or fails; in the cold what is thick.
Came usual_course(const study::FaultPlace& place);

/// By how much likelier a fault is than others, by what people say and have looked at.
double factor_of(const Job& job, const study::FaultPlace& place, const Readings& readings);

}  // namespace poise::diagnose
