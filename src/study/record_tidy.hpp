// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <string>

#include "study/sql.hpp"

namespace poise::study {

/// Whether the file is as tidy() leaves it.
bool is_tidy(sql::Connection& base);

/// Makes one plain file of a record that was written, with bytes that follow from its tables alone.
/// `changed`: tables were written since it was last tidy. Empty, or what stands in the way; nothing is lost
/// by that.
std::string tidy(sql::Connection& base, const std::filesystem::path& path, bool changed);

}  // namespace poise::study
