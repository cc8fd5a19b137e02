// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "job/outline.hpp"

namespace poise::job {

/// A text to be changed, and where everything stands in it.
struct Script {
  std::string text;  ///< the last line is ended too
  Outline outline;
  std::string newline;  ///< "\n" or "\r\n"
};
Script script_of(std::string text);

/// What comes to stand in place of a stretch.
struct Splice {
  Stretch at;
  std::string text;
};

/// The text with its splices, which do not overlap; those at one place in their order. A comment behind what
/// is changed keeps its column where it was lined up: by more than one blank, or with the next line's.
std::string spliced(const Script& script, std::vector<Splice> splices);

/// Where the line of a place begins and where it ends, before its "\n".
std::size_t line_begin(std::string_view text, std::size_t at);
std::size_t line_end(std::string_view text, std::size_t at);
/// The place behind the end of the line.
std::size_t next_line(std::string_view text, std::size_t at);

bool is_blank_line(std::string_view text, std::size_t begin);
bool is_comment_line(std::string_view text, std::size_t begin);
/// Whether only blanks stand before a place in its line.
bool is_first_in_line(std::string_view text, std::size_t at);
/// Where the comment lines that stand directly above a line begin; none of them begins before `floor`.
std::size_t comments_above(std::string_view text, std::size_t line, std::size_t floor);

/// A text of ours, with the line ends of the script.
std::string with_newlines(const Script& script, std::string_view text);

}  // namespace poise::job
