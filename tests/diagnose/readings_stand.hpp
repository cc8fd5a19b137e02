// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "diagnose/reading.hpp"
#include "job/job.hpp"

namespace poise::stand {

/// The drilling stand with a pressure switch B1 at its clamps, and what can be read on it; run once.
const Job& job();
const std::vector<diagnose::Watch>& watches();

/// Readings of a text; throws std::runtime_error with the complaints where there are any.
diagnose::Readings read(std::string_view text);
diagnose::Readings read(std::string_view text, const Job& of);
/// The sentences of its complaints with their lines, "3: ...", a line each; "none" where there are none.
std::string complaints_about(std::string_view text);
std::string complaints_about(std::string_view text, const Job& of);

/// The reading by the name of its watch, such as `G1 at the end of "clamp"`; throws where there is none.
const diagnose::Reading& reading_of(const diagnose::Readings& readings, std::string_view name);
bool has(const diagnose::Readings& readings, std::string_view name);
const diagnose::Watch& watch_of(const diagnose::Readings& readings, const diagnose::Reading& reading);

}  // namespace poise::stand
