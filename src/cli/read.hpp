// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>

#include "job/job.hpp"

namespace poise::cli {

/// The job in a file, and its text if asked for; none after all complaints about it on the error stream.
std::optional<Job> read_or_complain(const std::string& path, std::string* text = nullptr);

}  // namespace poise::cli
