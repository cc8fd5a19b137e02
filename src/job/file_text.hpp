// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>

namespace poise::job {

/// What keeps a file's content from being a job's text at all: too large, empty, not text. Empty if nothing
/// does.
std::string fault_of(std::string_view content);

/// Whether nothing but blanks stands in it.
bool is_blank(std::string_view content);

/// Whether the bytes are well-formed UTF-8 without NUL.
bool is_text(std::string_view content);

/// Greatest size of a job, bytes.
inline constexpr std::size_t largest_job = 4'000'000;

}  // namespace poise::job
