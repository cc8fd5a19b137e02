// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/shown.hpp"

#include <cmath>

namespace poise::diagnose {

std::string_view lamp(double value) { return value > 0.5 ? "on" : "off"; }

std::optional<double> lamp_from(std::string_view word) {
  if (word == "on" || word == "1") return 1.0;
  if (word == "off" || word == "0") return 0.0;
  return std::nullopt;
}

bool is_nothing(const Watch& watch, double value) {
  constexpr double least = 0.05;  // of what the instrument is off by
  return watch.instrument != Instrument::thermometer && std::abs(value) < least * watch.accuracy;
}

std::string shown(const Watch& watch, std::optional<double> value, const units::World& world) {
  if (!value || std::isnan(*value))
    return watch.instrument == Instrument::stop_watch ? "does not get there" : "does not come to it";
  if (watch.instrument == Instrument::contact) return std::string(lamp(*value));
  return units::show(is_nothing(watch, *value) ? 0.0 : *value, quantity_of(watch), world);
}

}  // namespace poise::diagnose
