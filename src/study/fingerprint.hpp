// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>

#include "job/job.hpp"

namespace poise::study {

/// SHA-256 of a job's text as 64 hexadecimal digits: what `sha256sum job.toml` prints, so that anyone can
/// tell whether papers and file belong together. Throws std::runtime_error where the library fails.
std::string fingerprint_of(std::string_view text);

/// The same of a job with all that its parts lists say of its parts: what a study's runs hang on. Without
/// lists that of the text.
std::string fingerprint_of(const Job& job, std::string_view text);

/// Its first sixteen digits in groups of four, for the foot of a page.
std::string in_groups(std::string_view fingerprint);

}  // namespace poise::study
