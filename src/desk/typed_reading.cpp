// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/typed_reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>

namespace poise::desk {
namespace {

using diagnose::Instrument;
using diagnose::Watch;

constexpr double far_past_the_range = 1.5, far_past_the_stroke = 0.5;
constexpr double below_any_vacuum = -1.5 * si::bar;
constexpr double largest_gauge = 1000 * si::bar;
constexpr double coldest = 233.15, hottest = 423.15;  // K: oil of a machine
constexpr double longest = 24 * 3600.0;               // s

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

std::string trimmed(std::string_view text) {
  const auto begin = text.find_first_not_of(" \t\r\n");
  if (begin == std::string_view::npos) return {};
  return std::string(text.substr(begin, text.find_last_not_of(" \t\r\n") + 1 - begin));
}

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

std::variant<std::optional<double>, std::string> of_a_switch(const std::string& word) {
  if (word == "on" || word == "1") return std::optional(1.0);
  if (word == "off" || word == "0") return std::optional(0.0);
  return std::string("a switch's lamp is on or off");
}

int part_of(const Watch& watch, const Job& job) {
  const std::string tag = watch.at.substr(0, watch.at.find('.'));
  const auto found = std::ranges::find(job.plan.parts, tag, &PlannedPart::tag);
  return found == job.plan.parts.end() ? -1 : static_cast<int>(found - job.plan.parts.begin());
}

/// A value of the part at which it is read; none where its kind has no such value.
std::optional<double> value_of(const Watch& watch, const Job& job, std::string_view name) {
  const int p = part_of(watch, job);
  if (p < 0) return std::nullopt;
  const Values& values = job.plan.parts[static_cast<std::size_t>(p)].values;
  if (std::ranges::find(values.table(), name, &Parameter::name) == values.table().end()) return std::nullopt;
  const double value = values[name];
  return std::isfinite(value) && value > 0.0 ? std::optional(value) : std::nullopt;
}

std::string of_a_gauge(double value, const Watch& watch, const Job& job, const units::World& world) {
  if (value < below_any_vacuum) {
    return fmt::format("no gauge reads below a vacuum, {}",
                       units::show(-si::atmosphere, Quantity::pressure, world));
  }
  // A portable gauge is taken as the pressure asks for: what a fault brings to a port may be anything.
  const bool own = watch.instrument == Instrument::gauge;
  const double range = own ? value_of(watch, job, "range").value_or(largest_gauge) : largest_gauge;
  if (value <= far_past_the_range * range) return {};
  return fmt::format("{} is far past {}, which is {}", units::show(value, Quantity::pressure, world),
                     units::show(range, Quantity::pressure, world),
                     own ? "all that this gauge shows" : "the largest portable gauge");
}

std::string of_a_rule(double value, const Watch& watch, const Job& job, const units::World& world) {
  const auto stroke = value_of(watch, job, "stroke");
  if (!stroke || (value >= -far_past_the_stroke * *stroke && value <= (1.0 + far_past_the_stroke) * *stroke))
    return {};
  return fmt::format("{} is far outside its stroke of {}", units::show(value, Quantity::length, world),
                     units::show(*stroke, Quantity::length, world));
}

/// What no machine shows; empty where it may.
std::string impossible(double value, const Watch& watch, const Job& job, const units::World& world) {
  if (!std::isfinite(value)) return "this is no number that an instrument shows";
  switch (watch.instrument) {
    case Instrument::gauge:
    case Instrument::portable_gauge:
      return of_a_gauge(value, watch, job, world);
    case Instrument::rule:
      return of_a_rule(value, watch, job, world);
    case Instrument::stop_watch:
      if (value < 0.0) return "no time is less than nothing";
      return value > longest ? "that is more than a day" : "";
    case Instrument::bucket:
      return value < 0.0 ? "no bucket catches less than nothing" : "";
    case Instrument::thermometer:
      if (value >= coldest && value <= hottest) return {};
      return fmt::format("no machine's oil has {}", units::show(value, Quantity::temperature, world));
    case Instrument::contact:
      break;
  }
  return {};
}

}  // namespace

std::variant<std::optional<double>, std::string> typed_reading(std::string_view text, const Watch& watch,
                                                               const Job& job, const units::World& world) {
  const std::string typed = trimmed(text);
  if (lower(typed) == "none") return std::optional<double>();
  if (watch.instrument == Instrument::contact) return of_a_switch(lower(typed));
  auto number = with_a_point(typed);
  if (!number) return fmt::format("\"{}\" may be read in two ways; write a decimal point", typed);
  const Quantity quantity = diagnose::quantity_of(watch);
  if (!number->empty() && (is_digit(number->back()) || number->back() == '.'))
    *number += " " + world[quantity];
  const units::Reading reading = units::read(*number, quantity);
  if (!reading.value) return reading.complaint;
  if (std::string why = impossible(*reading.value, watch, job, world); !why.empty()) return why;
  return std::optional(*reading.value);
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
