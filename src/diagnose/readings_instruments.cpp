// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// By which names people call what they read on a machine.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "diagnose/readings_intake.hpp"
#include "units/text.hpp"

namespace poise::diagnose {
namespace {

constexpr std::string_view of_pressure = ".pressure", of_gauge = ".reading";

bool is_gauge(const PlannedPart& part) { return part.kind->about.kind == "gauge"; }

std::string_view without(std::string_view name, std::string_view ending) {
  return name.ends_with(ending) ? name.substr(0, name.size() - ending.size()) : name;
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
