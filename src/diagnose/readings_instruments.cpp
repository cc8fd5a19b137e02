// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// By which names people call what they read on a machine, and what it can show.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "diagnose/readings_intake.hpp"
#include "units/text.hpp"

namespace poise::diagnose {
namespace {

constexpr std::string_view of_pressure = ".pressure", of_gauge = ".reading";
// What cannot be: common practice, with room for instruments that are off.
constexpr double lowest_pressure = -1.5 * si::bar, highest_portable = 2500 * si::bar, past_the_dial = 1.5;
constexpr double coldest = -40.0, hottest = 150.0;  // °C

bool is_gauge(const PlannedPart& part) { return part.kind->about.kind == "gauge"; }

std::string_view without(std::string_view name, std::string_view ending) {
  return name.ends_with(ending) ? name.substr(0, name.size() - ending.size()) : name;
}

/// How far an actuator goes, m; 0 where its kind does not say.
double stroke_of(const PlannedPart& part) {
  double sum = 0.0;
  for (const std::string_view name : {"stroke", "swing_stroke", "clamp_stroke"}) {
    const auto at = find_parameter(part.kind->parameters, name);
    if (at && part.kind->parameters[*at].quantity == Quantity::length) sum += part.values[name];
  }
  return sum;
}

std::string fault_of_pressure(const Watch& watch, const Job& job, double value, std::string_view unit) {
  if (value < lowest_pressure)
    return fmt::format("{} cannot be: a gauge pressure is never below {}",
                       units::show(value, Quantity::pressure, job.world),
                       units::show(-1 * si::bar, Quantity::pressure, job.world));
  const bool of_circuit = watch.instrument == Instrument::gauge;
  const double range = of_circuit ? job.plan.parts[watch.signal.part].values["range"] : highest_portable;
  const bool maybe_psi = unit == "bar";
  constexpr double at_the_stop = 1.001;
  if (value <= range * (of_circuit && !maybe_psi ? past_the_dial : at_the_stop)) return {};
  const std::string shown = units::show(value, Quantity::pressure, job.world);
  const std::string end = units::show(range, Quantity::pressure, job.world);
  const std::string_view psi_hint = maybe_psi ? "; is it psi?" : "";
  if (!of_circuit) return fmt::format("{} is more than any gauge shows{}", shown, psi_hint);
  return fmt::format("{} is beyond its dial, which ends at {}{} A needle at its stop is written as \"{}\"",
                     shown, end, maybe_psi ? psi_hint : ".", end);
}

std::string fault_of_position(const Watch& watch, const Job& job, double value) {
  const double stroke = stroke_of(job.plan.parts[watch.signal.part]);
  if (stroke <= 0.0 || (value >= -0.5 * stroke && value <= 1.5 * stroke)) return {};
  return fmt::format("{} is far outside its stroke of {}; measure from where it stands at rest",
                     units::show(value, Quantity::length, job.world),
                     units::show(stroke, Quantity::length, job.world));
}

std::string fault_of_time(const Watch& watch, const Job& job, double value) {
  const Step& step = job.steps[watch.step];
  if (value < 0.0) return "a time cannot be negative";
  if (value <= step.lasts * (1.0 + 1e-6)) return {};
  return fmt::format("{} is longer than step {} can last, {}; write \"none\" where it did not get there",
                     units::show(value, Quantity::time, job.world), job::quote(step.name),
                     units::show(step.lasts, Quantity::time, job.world));
}

}  // namespace

Instruments::Instruments(const Job& job, const std::vector<Watch>& watches)
    : job_(&job), watches_(&watches), circuit_(build(job.plan)) {
  // A port that its part has only with other values is in no run.
  for (std::size_t w = 0; w < watches.size(); ++w) {
    if (watches[w].instrument == Instrument::thermometer || !watches[w].signal.name.empty())
      by_name_[watches[w].at].push_back(w);
  }
}

std::optional<PortOf> Instruments::port(std::string_view name) const {
  for (int p = 0; p < static_cast<int>(job_->plan.parts.size()); ++p) {
    const PlannedPart& part = job_->plan.parts[p];
    if (!name.starts_with(part.tag + ".")) continue;
    for (int i = 0; i < part.kind->oil_ports; ++i) {
      if (job_->plan.name({p, i}) == name && port_exists(part.kind->ports[i], part.values))
        return PortOf{p, i};
    }
  }
  return std::nullopt;
}

std::optional<std::size_t> Instruments::find(std::string_view name) const {
  name = units::trimmed(name);
  const auto listed = [&](std::string_view at) -> std::optional<std::size_t> {
    const auto known = by_name_.find(at);
    return known == by_name_.end() ? std::nullopt : std::optional(known->second.front());
  };
  if (const auto at = listed(name)) return at;
  // A gauge's pressure, to people, is what it shows.
  const std::string_view place = without(without(name, of_pressure), of_gauge);
  if (const auto at = listed(place)) return at;
  const auto known = port(place);
  if (!known) return std::nullopt;
  const int node = circuit_.node_of(known->part, known->port);
  for (const auto& [at, all] : by_name_) {
    const Watch& watch = (*watches_)[all.front()];
    if (watch.instrument == Instrument::portable_gauge &&
        circuit_.node_of(watch.signal.part, watch.signal.index) == node)
      return all.front();
  }
  return std::nullopt;
}

std::string Instruments::unknown(std::string_view name) const {
  name = units::trimmed(name);
  for (const PlannedPart& part : job_->plan.parts) {
    if (name == part.tag || name.starts_with(part.tag + ".")) return unknown_on(part, name);
  }
  std::vector<std::string> first, more;
  for (const auto& [at, all] : by_name_) {
    const Instrument by = (*watches_)[all.front()].instrument;
    const bool fixed = by == Instrument::gauge || by == Instrument::contact || by == Instrument::thermometer;
    (fixed ? first : more).push_back(at);
  }
  for (int p = 0; p < static_cast<int>(job_->plan.parts.size()); ++p) {
    for (int i = 0; i < job_->plan.parts[p].kind->oil_ports; ++i) more.push_back(job_->plan.name({p, i}));
  }
  return fmt::format("nothing on this machine is read at {}{}", job::quote(name),
                     job::hint(name, first, more));
}

std::string Instruments::unknown_on(const PlannedPart& part, std::string_view name) const {
  if (port(without(name, of_pressure)))
    return fmt::format("no gauge is put to {}: its oil is the reservoir's", job::quote(name));
  std::vector<std::string> known;
  for (const auto& [at, all] : by_name_) {
    if (at.starts_with(part.tag + ".")) known.push_back(at);
  }
  for (int i = 0; i < part.kind->oil_ports && !is_gauge(part); ++i) {
    const std::string at = fmt::format("{}.{}", part.tag, part.kind->ports[i].name);
    if (std::ranges::find(known, at) == known.end() && find(at)) known.push_back(at);
  }
  if (known.empty()) return fmt::format("nothing is read at {}", job::quote(name));
  return fmt::format("nothing is read at {}; on {} there {} {}", job::quote(name), part.tag,
                     known.size() == 1 ? "is" : "are", job::listed(known, "and"));
}

std::string fault_of_value(const Watch& watch, const Job& job, double value, std::string_view unit) {
  if (!std::isfinite(value)) return "that is no number to work with";
  switch (watch.instrument) {
    case Instrument::gauge:
    case Instrument::portable_gauge:
      return fault_of_pressure(watch, job, value, unit);
    case Instrument::rule:
      return fault_of_position(watch, job, value);
    case Instrument::stop_watch:
      return fault_of_time(watch, job, value);
    case Instrument::bucket:
      return value < 0.0 ? "oil that comes out cannot be negative" : "";
    case Instrument::thermometer:
      if (value >= si::zero_celsius + coldest && value <= si::zero_celsius + hottest) return {};
      return fmt::format("{} is no temperature that oil has in a machine; read the thermometer again",
                         units::show(value, Quantity::temperature, job.world));
    case Instrument::contact:
      break;
  }
  return {};
}

std::optional<std::size_t> step_called(const Job& job, std::string_view name) {
  name = units::trimmed(name);
  const auto named = std::ranges::find(job.steps, name, &Step::name);
  if (named != job.steps.end()) return static_cast<std::size_t>(named - job.steps.begin());
  std::size_t number = 0;
  const auto [end, error] = std::from_chars(name.data(), name.data() + name.size(), number);
  const bool all = error == std::errc{} && end == name.data() + name.size();
  if (!all || number < 1 || number > job.steps.size()) return std::nullopt;
  return number - 1;
}

std::string unknown_step(const Job& job, std::string_view name) {
  std::vector<std::string> known;
  for (const Step& step : job.steps) known.push_back(step.name);
  return fmt::format("there is no step {}{}", job::quote(name), job::hint(name, known));
}

std::optional<double> begin_of(const Job& job, std::size_t step) {
  double time = 0.0;
  for (std::size_t s = 0; s < step; ++s) {
    if (!job.steps[s].until.empty()) return std::nullopt;
    time += job.steps[s].lasts;
  }
  return time;
}

}  // namespace poise::diagnose
