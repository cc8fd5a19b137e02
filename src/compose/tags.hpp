// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "compose/sheet.hpp"

namespace poise::compose {

/// The next free tag for a part of the kind, "V7": a letter for what it is and a number. `taken` counts
/// beside those of the sheet.
std::string next_tag(const Sheet& sheet, std::string_view kind, const std::vector<std::string>& taken = {});
/// The next free tag that begins as this one does.
std::string next_like(const Sheet& sheet, std::string_view tag, const std::vector<std::string>& taken = {});

}  // namespace poise::compose
