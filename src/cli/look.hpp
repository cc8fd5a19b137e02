// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <string>

#include "draw/show.hpp"
#include "job/job.hpp"

namespace poise::cli {

/// How a job's circuit is put on paper: a word of `paper_words` or none, and a title block that names the
/// file.
draw::Look look_of(const Job& job, const std::string& paper, const std::filesystem::path& file);

}  // namespace poise::cli
