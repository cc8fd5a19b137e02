// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string_view>
#include <vector>

#include "circuit/plan.hpp"

namespace poise::rules {

/// Something that no calculation sees and a person has to look at and confirm.
struct ToConfirm {
  std::string_view name;
  std::string_view sentence;
  std::string_view source;
  std::vector<int> parts;  ///< of the plan; none: the machine as a whole
};

/// What a person confirms of this plan: of the machine as a whole, then kind by kind what the parts' rooms
/// say.
std::vector<ToConfirm> to_confirm(const Plan& plan);

}  // namespace poise::rules
