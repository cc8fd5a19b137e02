// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/typed_reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <map>

#include "diagnose/readings_value.hpp"
#include "diagnose/readings_words.hpp"
#include "units/text.hpp"

namespace poise::desk {
namespace {

using diagnose::Instrument;
using diagnose::Watch;

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

std::string lower(std::string text) {
  std::ranges::transform(text, text.begin(),
                         [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

/// A comma as many keyboards write the decimal point; none where it may as well part thousands.
std::optional<std::string> with_a_point(std::string text) {
  const auto comma = text.find(',');
  if (comma == std::string::npos) return text;
  std::size_t digits = 0;
  while (comma + 1 + digits < text.size() && is_digit(text[comma + 1 + digits])) ++digits;
  const bool leads_with_nought =
      comma >= 1 && text[comma - 1] == '0' && (comma == 1 || !is_digit(text[comma - 2]));
  const bool once = text.find_first_of(",.", comma + 1) == std::string::npos && text.find('.') > comma;
  if (!once || (digits == 3 && !leads_with_nought)) return std::nullopt;
  text[comma] = '.';
  return text;
}

}  // namespace

std::variant<std::optional<double>, std::string> typed_reading(std::string_view text, const Watch& watch,
                                                               const Job& job, const units::World& world) {
  std::string typed(units::trimmed(text));
  const std::string word = lower(typed);
  if (watch.instrument == Instrument::contact || word == "none") {
    typed = word;
  } else {
    const auto number = with_a_point(typed);
    if (!number) return fmt::format("\"{}\" may be read in two ways; write a decimal point", typed);
    const bool bare = !number->empty() && (is_digit(number->back()) || number->back() == '.');
    typed = bare ? *number + " " + world[diagnose::quantity_of(watch)] : *number;
  }
  diagnose::Understood read = diagnose::value_from(watch, typed);
  if (!read.fault.empty()) return std::move(read.fault);
  if (!read.value) return std::optional<double>();
  std::string why = diagnose::fault_of_value(watch, job, *read.value, diagnose::unit_behind(typed), world);
  if (!why.empty()) return why;
  return read.value;
}

std::vector<std::string> keys_of(const std::vector<Watch>& watches, const Job& job) {
  std::vector<std::string> keys;
  std::map<std::string, int> times;
  for (const Watch& watch : watches) {
    std::string key = diagnose::name_of(watch, job);
    const int time = ++times[key];
    keys.push_back(time == 1 ? std::move(key) : fmt::format("{} ({})", key, time));
  }
  return keys;
}

}  // namespace poise::desk
