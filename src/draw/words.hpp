// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "draw/schematic.hpp"
#include "job/job.hpp"

namespace poise::draw {

/// Letters in a line beside a symbol, and lines; what is longer is broken, what is still too long ends in
/// "…".
inline constexpr std::size_t longest_line = 22, most_lines = 3;

/// What stands beside each part of a job's plan: code, tag, and the data that its kind finds worth showing,
/// in the job's units. A line that has no tag in the job has none on the drawing either.
std::vector<Words> words_of(const Job& job);

/// What a job says of where its parts stand.
std::vector<Wish> wishes_of(const Job& job);

/// A value with its unit as a drawing shows it: "12.0 cm³", where a file writes "12.0 cm3".
std::string shown(double value, Quantity quantity, const units::World& world);

/// The oil by its grade, else by its viscosity at 40 °C.
std::string oil_of(const OilData& oil, const units::World& world);

}  // namespace poise::draw
