// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/page.hpp"

#include <algorithm>

namespace poise {

std::size_t columns(std::string_view text) {
  // Every byte of UTF-8 but the continuation bytes 10xxxxxx begins a character.
  return static_cast<std::size_t>(
      std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string left(std::string_view text, std::size_t wide) {
  return std::string(text) + std::string(wide - std::min(wide, columns(text)), ' ');
}

std::string right(std::string_view text, std::size_t wide) {
  return std::string(wide - std::min(wide, columns(text)), ' ') + std::string(text);
}

std::string wrapped(std::string_view text, std::size_t wide, std::size_t indent) {
  std::string page;
  std::size_t used = indent;
  while (!text.empty()) {
    const auto word = text.substr(0, text.find(' '));
    text.remove_prefix(std::min(text.size(), word.size() + 1));
    if (word.empty()) continue;
    const bool first = page.empty();
    if (!first && used + 1 + columns(word) > wide) {
      page += '\n' + std::string(indent, ' ');
      used = indent;
    } else if (!first) {
      page += ' ';
      ++used;
    }
    page += word;
    used += columns(word);
  }
  return page;
}

std::string Ink::with(std::string_view code, std::string_view text) const {
  if (!colour_) return std::string(text);
  return "\x1b[" + std::string(code) + "m" + std::string(text) + "\x1b[0m";
}

}  // namespace poise
