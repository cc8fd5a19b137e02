// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <string>

#include "study/sql.hpp"

namespace poise::study {

/// Makes one plain file of a record that was written, with bytes that follow from its tables alone.
/// `changed`: tables were written since it was last tidy. Empty, or what stands in the way; nothing is lost
/// by that.
std::string tidy(sql::Connection& base, const std::filesystem::path& path, bool changed);

}  // namespace poise::study
