// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>

namespace poise {

/// Columns that a UTF-8 text takes on a terminal, one for each character.
std::size_t columns(std::string_view text);

/// The text filled up with blanks on its right, or left, to a number of columns.
std::string left(std::string_view text, std::size_t wide);
std::string right(std::string_view text, std::size_t wide);

/// Breaks a text at its blanks into lines that start at column `indent` and end by column `wide`; a longer
/// word stays whole. The first line comes without its indent, since something may stand there; no newline at
/// the end.
std::string wrapped(std::string_view text, std::size_t wide, std::size_t indent);

/// Terminal codes, or nothing where no colour is wanted. The two colours differ for every kind of sight.
class Ink {
 public:
  explicit Ink(bool colour) : colour_(colour) {}
  std::string good(std::string_view text) const { return with("38;5;32", text); }
  std::string bad(std::string_view text) const { return with("1;38;5;166", text); }
  std::string strong(std::string_view text) const { return with("1", text); }
  std::string quiet(std::string_view text) const { return with("2", text); }

 private:
  std::string with(std::string_view code, std::string_view text) const;
  bool colour_;
};

}  // namespace poise
