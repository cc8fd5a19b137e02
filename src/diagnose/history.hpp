// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "diagnose/reading.hpp"
#include "study/fault_place.hpp"

namespace poise::diagnose {

/// How a fault usually comes about: of a part's own as its room says, of all others common practice.
Comes usual_course(const Job& job, const study::FaultPlace& place);

/// By how much likelier a fault is than others, by what people say and have looked at.
double factor_of(const Job& job, const study::FaultPlace& place, const Readings& readings);

}  // namespace poise::diagnose
