// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/readings_value.hpp"

#include <fmt/format.h>

#include <cmath>

#include "diagnose/shown.hpp"
#include "job/section.hpp"
#include "units/text.hpp"

namespace poise::diagnose {
namespace {

// What cannot be: common practice, with room for instruments that are off.
constexpr double lowest_pressure = -1.5 * si::bar, highest_portable = 2500 * si::bar, past_the_dial = 1.5;
constexpr double coldest = -40.0, hottest = 150.0;  // °C

/// How far an actuator goes, m; 0 where its kind does not say.
double stroke_of(const PlannedPart& part) {
  double sum = 0.0;
  for (const std::string_view name : {"stroke", "swing_stroke", "clamp_stroke"}) {
    const auto at = find_parameter(part.kind->parameters, name);
    if (at && part.kind->parameters[*at].quantity == Quantity::length) sum += part.values[name];
  }
  return sum;
}

/// One value that was read, with all that it is judged by.
struct Judged {
  const Watch& watch;
  const Job& job;
  double value;
  std::string_view unit;
  const units::World& world;

  const PlannedPart& part() const { return job.plan.parts[watch.signal.part]; }
  std::string in_words(double number) const { return units::show(number, quantity_of(watch), world); }

  std::string as_pressure() const;
  std::string as_position() const;
  std::string as_time() const;
  std::string as_temperature() const;
};

std::string Judged::as_pressure() const {
  if (value < lowest_pressure)
    return fmt::format("{} cannot be: a gauge pressure is never below {}", in_words(value),
                       in_words(-1 * si::bar));
  const bool of_circuit = watch.instrument == Instrument::gauge;
  const double range = of_circuit ? part().values["range"] : highest_portable;
  const bool maybe_psi = unit == "bar";
  constexpr double at_the_stop = 1.001;
  if (value <= range * (of_circuit && !maybe_psi ? past_the_dial : at_the_stop)) return {};
  const std::string_view psi_hint = maybe_psi ? "; is it psi?" : "";
  if (!of_circuit) return fmt::format("{} is more than any gauge shows{}", in_words(value), psi_hint);
  return fmt::format("{} is beyond its dial, which ends at {}{} A needle at its stop is written as \"{}\"",
                     in_words(value), in_words(range), maybe_psi ? psi_hint : ".", in_words(range));
}

std::string Judged::as_position() const {
  const double stroke = stroke_of(part());
  if (stroke <= 0.0 || (value >= -0.5 * stroke && value <= 1.5 * stroke)) return {};
  return fmt::format("{} is far outside its stroke of {}; measure from where it stands at rest",
                     in_words(value), in_words(stroke));
}

std::string Judged::as_time() const {
  const Step& step = job.steps[watch.step];
  if (value < 0.0) return "a time cannot be negative";
  if (value <= step.lasts * (1.0 + 1e-6)) return {};
  return fmt::format("{} is longer than step {} can last, {}; write \"none\" where it did not get there",
                     in_words(value), job::quote(step.name), in_words(step.lasts));
}

std::string Judged::as_temperature() const {
  if (value >= si::zero_celsius + coldest && value <= si::zero_celsius + hottest) return {};
  return fmt::format("{} is no temperature that oil has in a machine; read the thermometer again",
                     in_words(value));
}

}  // namespace

Understood value_from(const Watch& watch, std::string_view text) {
  text = units::trimmed(text);
  if (text == "none") {
    if (watch.instrument == Instrument::thermometer)
      return {{}, "oil always has a temperature; leave the reading out where nobody took it"};
    return {};
  }
  if (watch.instrument != Instrument::contact) {
    units::Reading read = units::read(text, quantity_of(watch));
    return {read.value, std::move(read.complaint)};
  }
  if (const auto state = lamp_from(text)) return {state, {}};
  return {{},
          fmt::format("{} is no state of a switch; write \"on\" where its lamp is lit, \"off\" where not",
                      job::quote(text))};
}

std::string fault_of_value(const Watch& watch, const Job& job, double value, std::string_view unit,
                           const units::World& world) {
  if (!std::isfinite(value)) return "that is no number to work with";
  const Judged judged{watch, job, value, unit, world};
  switch (watch.instrument) {
    case Instrument::gauge:
    case Instrument::portable_gauge:
      return judged.as_pressure();
    case Instrument::rule:
      return judged.as_position();
    case Instrument::stop_watch:
      return judged.as_time();
    case Instrument::bucket:
      return value < 0.0 ? "oil that comes out cannot be negative" : "";
    case Instrument::thermometer:
      return judged.as_temperature();
    case Instrument::contact:
      break;
  }
  return {};
}

}  // namespace poise::diagnose
