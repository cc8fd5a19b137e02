// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Kinds that rules of several chapters concern.
#pragma once

#include <array>
#include <string_view>

namespace poise::rules {

inline constexpr std::array<std::string_view, 6> all_pumps{"pump",       "two_stage_pump",  "variable_pump",
                                                           "shaft_pump", "air_driven_pump", "hand_pump"};
inline constexpr std::array<std::string_view, 3> reliefs{"relief", "pilot_operated_relief",
                                                         "externally_drained_relief"};
inline constexpr std::array<std::string_view, 2> reducers{"reducing", "reducing_non_relieving"};

}  // namespace poise::rules
