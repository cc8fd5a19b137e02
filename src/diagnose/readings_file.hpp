// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <variant>

#include "diagnose/reading.hpp"
#include "job/job.hpp"

namespace poise::diagnose {

/// Reads readings: TOML, a table in CSV, or a log in CSV (docs/readings.md), told apart by what they begin
/// with. `watches` is what can be read on the job's machine. Never throws for what is in the text; every
/// complaint is reported with its place: unknown gauges and steps with the nearest known word, wrong units,
/// values that no machine shows.
std::variant<Readings, Complaints> read_readings(std::string_view text, std::string_view file_name,
                                                 const Job& job, const std::vector<Watch>& watches);
/// Reads a file; one that cannot be opened, is empty or not text is a complaint too.
std::variant<Readings, Complaints> read_readings_file(const std::filesystem::path& path, const Job& job,
                                                      const std::vector<Watch>& watches,
                                                      std::string* text = nullptr);

/// Readings as TOML in the job's units, as `read_readings` reads them.
std::string to_toml(const Readings& readings, const Job& job, const std::vector<Watch>& watches);
/// A table in CSV to be filled in: a row for each of these watches, its value empty.
std::string empty_table(const std::vector<std::size_t>& sheet, const Job& job,
                        const std::vector<Watch>& watches);

/// Where the readings of commissioning stand: "stand.toml" has "stand.baseline.toml" beside it.
std::filesystem::path baseline_of(const std::filesystem::path& job);

}  // namespace poise::diagnose
