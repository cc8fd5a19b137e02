// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "job/edit.hpp"

namespace poise::compose {

/// The text with keys of tables renamed where they stand, in headings, lines and braces. `rename` is asked
/// for each way that leads to something written and changes the stops that get another name.
std::string with_renamed_keys(std::string_view text, const std::function<job::Way(job::Way)>& rename);

}  // namespace poise::compose
