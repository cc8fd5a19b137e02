// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>

#include "compose/circuits_making.hpp"

namespace poise::compose {

/// The job's text with the circuit in it: its parts behind those of the job, its lines behind the job's
/// lines, `set` in place of `move`. All else stays as it is written.
std::string text_with(std::string_view text, const Making& making);

}  // namespace poise::compose
