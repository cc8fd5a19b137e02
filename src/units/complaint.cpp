// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "units/complaint.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "units/catalogue.hpp"
#include "units/nearest.hpp"
#include "units/system.hpp"
#include "units/text.hpp"
#include "units/units.hpp"

namespace poise::units {
namespace {

std::string lower(std::string_view text) {
  std::string result(text);
  for (char& c : result)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return result;
}

bool is_figure(char c) { return c >= '0' && c <= '9'; }

std::size_t figures(std::string_view text) {
  std::size_t count = 0;
  while (count < text.size() && is_figure(text[count])) ++count;
  return count;
}

std::string with_blank(std::string_view number, std::string_view unit) {
  return unit.empty() ? std::string(number) : fmt::format("{} {}", number, unit);
}

std::string comma_complaint(std::string_view text, std::string_view digits, std::string_view rest) {
  const std::size_t count = figures(rest.substr(1));
  const std::string_view after = rest.substr(1, count);
  const std::string_view unit = trimmed(rest.substr(1 + count));
  const std::string decimal = with_blank(fmt::format("{}.{}", digits, after), unit);
  // "10,000 psi" is ten thousand to one reader and ten to another; neither is guessed.
  if (count == 3 && !has_loose_number(unit))
    return fmt::format("{} has a comma; write \"{}\" for thousands or \"{}\" for a decimal", quoted(text),
                       with_blank(fmt::format("{}{}", digits, after), unit), decimal);
  if (count == 0 || has_loose_number(unit))
    return fmt::format("{} has a comma; write decimals with a point, and thousands without a mark",
                       quoted(text));
  return fmt::format("{} has a comma; write decimals with a point, such as \"{}\"", quoted(text), decimal);
}

// "1/2 in" and "2 1/2 in", the habit on drawings in inches.
std::string fraction_complaint(std::string_view text, std::string_view digits, std::string_view rest) {
  const bool mixed = !rest.starts_with('/');
  const std::string_view above = mixed ? rest.substr(0, figures(rest)) : digits;
  const std::string_view tail = rest.substr(mixed ? above.size() : 0);
  if (above.empty() || tail.size() < 2 || tail[0] != '/' || !is_figure(tail[1])) return {};
  const std::string_view below = tail.substr(1, figures(tail.substr(1)));
  double whole = 0.0, numerator = 0.0, denominator = 0.0;
  if (mixed) std::from_chars(digits.data(), digits.data() + digits.size(), whole);
  std::from_chars(above.data(), above.data() + above.size(), numerator);
  std::from_chars(below.data(), below.data() + below.size(), denominator);
  if (denominator == 0.0) return fmt::format("{} is a fraction; write it as a decimal", quoted(text));
  const double part = numerator / denominator;
  const double decimal = whole < 0.0 ? whole - part : whole + part;
  return fmt::format("{} is a fraction; write it as a decimal, \"{}\"", quoted(text),
                     with_blank(fmt::format("{:.6g}", decimal), trimmed(tail.substr(1 + below.size()))));
}

bool is_bare_ton(std::string_view unit) {
  constexpr std::array<std::string_view, 4> tons = {"ton", "tons", "tonf", "tonsf"};
  const std::string word = lower(unit);
  for (const std::string_view ton : tons)
    if (word == ton) return true;
  return false;
}

// Whether the unit is a pressure unit with one of the endings, such as "bar g", "psig" or "bar(a)".
bool is_pressure_with(std::string_view unit, std::span<const std::string_view> endings) {
  const std::string letters = lower(unit);
  for (const std::string_view ending : endings)
    if (letters.size() > ending.size() && letters.ends_with(ending) &&
        scale(trimmed(unit.substr(0, unit.size() - ending.size())), Quantity::pressure))
      return true;
  return false;
}

std::string gauge_complaint(std::string_view text, std::string_view unit) {
  constexpr std::array<std::string_view, 3> gauge = {"(g)", "gauge", "g"};
  constexpr std::array<std::string_view, 4> absolute = {"(a)", "absolute", "abs", "a"};
  if (is_pressure_with(unit, gauge))
    return fmt::format("{}: pressures are gauge pressures already; write the unit alone, such as \"210 bar\"",
                       quoted(text));
  if (is_pressure_with(unit, absolute))
    return fmt::format("{} is an absolute pressure; pressures are gauge here: take off 1.013 bar (14.7 psi)",
                       quoted(text));
  return {};
}

std::vector<std::string> offered_units(Quantity quantity) {
  std::vector<std::string> result;
  std::string_view rest = kind(quantity).offered;
  while (!rest.empty()) {
    const std::size_t comma = rest.find(',');
    result.emplace_back(rest.substr(0, comma));
    rest = comma == std::string_view::npos ? std::string_view{} : rest.substr(comma + 1);
  }
  return result;
}

}  // namespace

std::string with_article(std::string_view name) {
  constexpr std::string_view vowels = "aeiou";
  return fmt::format("{} {}", vowels.find(name.front()) == std::string_view::npos ? "a" : "an", name);
}

std::string expected(Quantity quantity) {
  return fmt::format("expected {}, such as \"{}\"", with_article(name(quantity)), example(quantity));
}

std::string number_complaint(std::string_view text, std::string_view digits, std::string_view rest,
                             Quantity quantity) {
  if (rest.starts_with(',')) return comma_complaint(text, digits, rest);
  if (auto complaint = fraction_complaint(text, digits, rest); !complaint.empty()) return complaint;
  if (!has_loose_number(rest)) return {};
  return fmt::format(
      "{} holds more than one number; write one number without blanks, and its unit, such as \"{}\"",
      quoted(text), example(quantity));
}

std::string unit_complaint(std::string_view text, std::string_view digits, std::string_view unit,
                           Quantity quantity) {
  if (is_bare_ton(unit))
    return fmt::format(
        "{0}: a bare \"ton\" has no one size; write \"{1} t\" (9.807 kN each), \"{1} ton_us\" (US ton, "
        "8.896 kN each) or kN",
        quoted(text), digits);
  if (quantity == Quantity::pressure)
    if (auto complaint = gauge_complaint(text, unit); !complaint.empty()) return complaint;
  if (const std::string_view measured = measured_by(unit); !measured.empty())
    return fmt::format("{} is {}; {}", quoted(text), with_article(measured), expected(quantity));
  const std::string wrong =
      is_unit(unit) ? fmt::format("is not {}", with_article(name(quantity))) : "has an unknown unit";
  if (const auto nearest = nearest_word(unit, offered_units(quantity)))
    return fmt::format("{} {}; did you mean \"{} {}\"?", quoted(text), wrong, digits, *nearest);
  return fmt::format("{} {}; {}", quoted(text), wrong, expected(quantity));
}

}  // namespace poise::units
