// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "rules/sight.hpp"

namespace poise::rules {

/// "K2, K3 and K4"
std::string tags(const Sight& sight, const std::vector<int>& parts);

/// "; likewise K2 and K3", or nothing: behind a finding on the worst of several parts.
std::string likewise(const Sight& sight, const std::vector<int>& others);

}  // namespace poise::rules
