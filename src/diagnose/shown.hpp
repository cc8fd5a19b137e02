// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "diagnose/watch.hpp"
#include "units/units.hpp"

namespace poise::diagnose {

/// Where a contact is made its lamp is "on", else "off": the words of files, papers and answers.
std::string_view lamp(double value);
/// 1 or 0 by these words, or by the number itself; none where the text is neither.
std::optional<double> lamp_from(std::string_view word);

/// What the instrument cannot tell from nothing; a thermometer's zero is a temperature like others.
bool is_nothing(const Watch& watch, double value);

/// What an instrument shows, in words: "84.0 bar", "on", "does not come to it".
std::string shown(const Watch& watch, std::optional<double> value, const units::World& world);

}  // namespace poise::diagnose
