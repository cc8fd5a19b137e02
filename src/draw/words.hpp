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

/// What is worth showing of a part's data, a line each and as long as it is: "40.0/22.0 mm × 25.0 mm". The
/// job's note is left out.
std::vector<std::string> data_of(const Job& job, int part);

/// A value with its unit as a drawing shows it: "12.0 cm³", where a file writes "12.0 cm3".
std::string shown(double value, Quantity quantity, const units::World& world);

/// The same world with the larger unit of a quantity where people tell a value in it: 12 litres, not 12000
/// cm3.
units::World world_to_show(double value, Quantity quantity, const units::World& world);

/// A unit, or text with units, with its figures raised: "cm³" for "cm3", "°C" for "degC".
std::string with_raised_figures(std::string_view unit);

/// The oil by its grade, else by its viscosity at 40 °C.
std::string oil_of(const OilData& oil, const units::World& world);

}  // namespace poise::draw
