// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "rules/sight.hpp"

namespace poise::rules {

/// How this machine can hurt someone although all holds, and what people keep to: crush, load, injection,
/// burst, stored energy, with its own numbers. Verdict and papers show them. Facts: utility safety article on
/// injection (from 7 bar); accident insurance information on safe maintenance of hydraulic systems; common
/// practice.
std::vector<std::string> for_people(const Sight& sight);

}  // namespace poise::rules
