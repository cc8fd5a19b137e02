// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "units/text.hpp"

#include <array>
#include <cstddef>

namespace poise::units {
namespace {

constexpr std::array spelling_table = {
    Spelling{"\u00A0", " "},    Spelling{"\u2009", " "},   Spelling{"\u202F", " "},
    Spelling{"\t", " "},        Spelling{"\u00B7", " "},   Spelling{"\u22C5", " "},
    Spelling{"\u2212", "-"},    Spelling{"\u207B", "-"},   Spelling{"\u00B9", "1"},
    Spelling{"\u00B2", "2"},    Spelling{"\u00B3", "3"},   Spelling{"\u00B5", "u"},
    Spelling{"\u03BC", "u"},    Spelling{"\u00B0", "deg"}, Spelling{"\u2103", "degC"},
    Spelling{"\u2109", "degF"},
};

constexpr bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == '%';
}
constexpr bool is_figure(char c) { return c >= '0' && c <= '9'; }
constexpr std::string_view joints = " ./*()";

// How many bytes the UTF-8 character at the start of the text has; 0 where the text is broken.
std::size_t character_length(std::string_view text) {
  const auto first = static_cast<unsigned char>(text.front());
  const std::size_t length = first < 0x80   ? 1
                             : first < 0xC2 ? 0
                             : first < 0xE0 ? 2
                             : first < 0xF0 ? 3
                             : first < 0xF5 ? 4
                                            : 0;
  if (length > text.size()) return 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((static_cast<unsigned char>(text[i]) & 0xC0) != 0x80) return 0;
  return length;
}

// An exponent follows its symbol at once, perhaps after "^" and a minus sign.
bool may_be_exponent(std::string_view unit, std::size_t at) {
  if (at > 0 && unit[at - 1] == '-') --at;
  if (at > 0 && unit[at - 1] == '^') --at;
  return at > 0 && is_letter(unit[at - 1]);
}

bool is_one_over(std::string_view unit) {
  return unit.starts_with("1/") && unit.size() > 2 && (is_letter(unit[2]) || unit[2] == '(');
}

}  // namespace

std::span<const Spelling> spellings() { return spelling_table; }

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  const std::size_t first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::string plain(std::string_view text) {
  std::string result;
  while (!text.empty()) {
    bool respelled = false;
    for (const auto& [sign, letters] : spelling_table) {
      if (!text.starts_with(sign)) continue;
      result += letters;
      text.remove_prefix(sign.size());
      respelled = true;
      break;
    }
    if (respelled) continue;
    result += text.front();
    text.remove_prefix(1);
  }
  return std::string(trimmed(result));
}

std::string quoted(std::string_view text) {
  constexpr std::size_t longest = 40;
  text = trimmed(text);
  std::string result = "\"";
  for (std::size_t shown = 0; !text.empty(); ++shown) {
    if (shown == longest) return result + "...\"";
    const std::size_t length = character_length(text);
    const bool unprintable = length == 0 || (length == 1 && (text.front() < ' ' || text.front() == 0x7F));
    if (unprintable)
      result += '?';
    else
      result += text.substr(0, length);
    text.remove_prefix(length == 0 ? 1 : length);
  }
  return result + '"';
}

bool is_well_formed(std::string_view unit) {
  if (is_one_over(unit)) unit.remove_prefix(2);
  if (unit.empty() || !(is_letter(unit.front()) || unit.front() == '(')) return false;
  for (std::size_t i = 0; i < unit.size(); ++i) {
    const bool figure_next = i + 1 < unit.size() && is_figure(unit[i + 1]);
    if (is_letter(unit[i]) || joints.find(unit[i]) != std::string_view::npos) continue;
    if (is_figure(unit[i]) ? may_be_exponent(unit, i) && !figure_next
                           : (unit[i] == '^' && i > 0 && is_letter(unit[i - 1])) ||
                                 (unit[i] == '-' && figure_next && may_be_exponent(unit, i + 1)))
      continue;
    return false;
  }
  return true;
}

bool has_loose_number(std::string_view unit) {
  if (is_one_over(unit)) unit.remove_prefix(2);
  for (std::size_t i = 0; i < unit.size(); ++i) {
    const bool begins = is_figure(unit[i]) && (i == 0 || !is_figure(unit[i - 1]));
    if (begins && !may_be_exponent(unit, i)) return true;
  }
  return false;
}

}  // namespace poise::units
