// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "quantity/quantity.hpp"
#include "study/sql.hpp"

namespace poise::study {

/// Makes the tables in an empty file; leaves a record as it is. Empty, or why the file is none or none that
/// this version knows.
std::string make_tables(sql::Connection& base, const std::filesystem::path& path);
/// The same for a file that is only read.
std::string check_tables(sql::Connection& base, const std::filesystem::path& path);

Quantity quantity_of(std::string_view name);  ///< by its name in units; none where it is unknown

}  // namespace poise::study
