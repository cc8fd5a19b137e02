// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string_view>

#include "judge/verdict.hpp"

namespace poise {

/// Name of the finding that every job has.
inline constexpr std::string_view course_promise = "every step comes to its end";

/// "Every step comes to its end". Held: margin = the shortest time left of the longest wait, where steps wait
/// for conditions; share of that wait. Broken by a condition that was waited for in vain: margin = the room
/// of the condition furthest off; share of its threshold. Broken by a run that ended early: no margin.
Finding judged_course(const Job& job, const Trace& trace);

}  // namespace poise
