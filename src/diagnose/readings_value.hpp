// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "diagnose/watch.hpp"
#include "job/job.hpp"
#include "units/units.hpp"

namespace poise::diagnose {

/// What a text beside an instrument says, SI, or what is wrong with it; neither where it says "none": its
/// moment does not come.
struct Understood {
  std::optional<double> value{};
  std::string fault{};
};
/// A number with its unit; of a contact "on" or "off".
Understood value_from(const Watch& watch, std::string_view text);

/// Why a value cannot have been read, and what to do, in the units of `world`; empty where it can. `unit` is
/// the one it was written in.
std::string fault_of_value(const Watch& watch, const Job& job, double value, std::string_view unit,
                           const units::World& world);

}  // namespace poise::diagnose
