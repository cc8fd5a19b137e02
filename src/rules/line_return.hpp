// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "rules/rule.hpp"
#include "rules/sight.hpp"

namespace poise::rules {

/// Looks at what return lines keep against what they let home: 5 bar, or less where a spring alone brings a
/// cylinder in.
void look_at_back_pressure(const Sight& sight, Report& report);

}  // namespace poise::rules
