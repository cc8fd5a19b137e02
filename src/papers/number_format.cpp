// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/number_format.hpp"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <optional>
#include <string_view>

namespace poise::papers {
namespace {

/// The longest that the library takes, in bytes, and the longest words beside a number.
constexpr std::size_t longest = 127;

bool is_figure(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

/// A text taken apart at its first number.
struct Parts {
  std::string_view before, number, after;
  double value = 0.0;
};

std::optional<Parts> taken_apart(std::string_view text) {
  auto at = static_cast<std::size_t>(std::ranges::find_if(text, is_figure) - text.begin());
  if (at == text.size()) return std::nullopt;
  if (at > 0 && text[at - 1] == '-') --at;
  Parts parts{.before = text.substr(0, at)};
  const char* const begin = text.data() + at;
  const auto [end, error] = std::from_chars(begin, text.data() + text.size(), parts.value);
  if (error != std::errc()) return std::nullopt;
  parts.number = text.substr(at, static_cast<std::size_t>(end - begin));
  parts.after = text.substr(at + parts.number.size());
  return parts;
}

/// Whether the text's number is the cell's, to the figures that it shows.
bool tells(const Parts& parts, double number) {
  constexpr double three_figures = 0.006;
  return std::abs(parts.value - number) <= three_figures * std::abs(number) + 1e-12;
}

std::string figures_like(std::string_view number) {
  const auto power = number.find_first_of("eE");
  const std::string_view plain = number.substr(0, power);
  const auto point = plain.find('.');
  std::string format = "0";
  if (point != std::string_view::npos && point + 1 < plain.size())
    format += '.' + std::string(plain.size() - point - 1, '0');
  return power == std::string_view::npos ? format : format + "E+00";
}

std::string literal(std::string_view words) {
  std::string text(words);
  std::erase(text, '"');
  return text.empty() ? text : '"' + text + '"';
}

/// The blank before a unit stands outside the quotes, as people write such a format.
std::string behind(std::string_view words) {
  if (!words.starts_with(' ')) return literal(words);
  return ' ' + literal(words.substr(1));
}

}  // namespace

std::string number_format(const Cell& cell) {
  const std::optional<Parts> parts = taken_apart(cell.text);
  std::string format = cell.unit.empty() ? "General" : "General " + literal(cell.unit);
  if (parts && cell.number && tells(*parts, *cell.number))
    format = literal(parts->before) + figures_like(parts->number) + behind(parts->after);
  return format.size() > longest ? "General" : format;
}

}  // namespace poise::papers
