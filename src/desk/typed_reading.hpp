// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "diagnose/watch.hpp"
#include "job/job.hpp"
#include "units/units.hpp"

namespace poise::desk {

/// A reading as it was typed beside its instrument: a number in the units shown, or with a unit of its own;
/// "on" and "off" of a switch; "none" where its moment does not come. SI, or what is wrong with it, in a
/// sentence.
std::variant<std::optional<double>, std::string> typed_reading(std::string_view text,
                                                               const diagnose::Watch& watch, const Job& job,
                                                               const units::World& world);

/// By what each watch is known to the page: its name, with a number behind it where steps are called alike.
std::vector<std::string> keys_of(const std::vector<diagnose::Watch>& watches, const Job& job);

}  // namespace poise::desk
