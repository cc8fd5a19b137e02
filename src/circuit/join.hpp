// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "circuit/plan.hpp"

namespace poise {

/// Groups of ports that are joined, directly or through others; every port of the plan is in exactly one
/// group. `group_of[part][port]` counts from 0 in the order of the parts.
struct Groups {
  std::vector<std::vector<int>> group_of;
  std::vector<std::vector<PortOf>> members;
};
Groups join(const Plan& plan);

}  // namespace poise
