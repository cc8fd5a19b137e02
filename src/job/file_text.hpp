// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <variant>

namespace poise::job {

/// What keeps a file's content from being a job's text at all: too large, empty, not text. Empty if nothing
/// does.
std::string fault_of(std::string_view content);

/// Whether nothing but blanks stands in it.
bool is_blank(std::string_view content);

/// Whether the bytes are well-formed UTF-8 without NUL.
bool is_text(std::string_view content);

/// Why a file could not be read, as what follows its name in a sentence.
struct FileFault {
  std::string sentence;
};

/// Greatest size of a job, or of a parts list, bytes.
inline constexpr std::size_t largest_job = 4'000'000;

/// What stands in a file, as far as one byte more than `most`. A pipe is read to its end where somebody
/// writes into it; devices and sockets are not read.
std::variant<std::string, FileFault> text_of_file(const std::filesystem::path& path,
                                                  std::size_t most = largest_job);

}  // namespace poise::job
