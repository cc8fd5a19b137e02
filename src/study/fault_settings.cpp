// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Adjusters that stand elsewhere than the settings sheet says.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "study/fault_parts.hpp"

namespace poise::study {
namespace {

using Of = FaultPlace::Of;

// Where a setting begins to be wrong, and how far anybody turns an adjuster; common practice.
constexpr std::array low{0.93, 0.5}, high{1.07, 1.6};

const Parameter& line_of(const Job& job, const FaultPlace& place) {
  return job.plan.parts[place.on].kind->parameters[place.which];
}

double changed(double value, const Parameter& line, double factor) {
  return std::clamp(value * factor, line.low, line.high);
}

bool has_a_value(const Job& job, int part, int parameter) {
  const double value = job.plan.parts[part].values.all()[parameter];
  return (std::isfinite(value) && value != 0.0) || commands_set_it(job, part, parameter);
}

void add_setting(const Job& job, int part, int parameter, std::vector<FaultPlace>& places) {
  const PlannedPart& planned = job.plan.parts[part];
  const std::string tag = planned.tag;
  const std::string name(planned.kind->parameters[parameter].name);
  const auto add = [&](Of of, std::string_view word, const std::array<double, 2>& sizes) {
    std::string fault = fmt::format("{} too {}", name, word);
    std::ranges::replace(fault, '_', ' ');
    places.push_back({.of = of,
                      .name = fmt::format("{} {}", tag, fault),
                      .part = tag,
                      .fault = fault,
                      .sentence = "It stands elsewhere than the settings sheet says.",
                      .source = "common practice",
                      .on = part,
                      .which = parameter,
                      .slight = sizes[0],
                      .grave = sizes[1],
                      .factors = true});
  };
  add(Of::set_low, "low", low);
  add(Of::set_high, "high", high);
}

}  // namespace

std::vector<FaultPlace> wrong_settings(const Job& job) {
  std::vector<FaultPlace> places;
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    const Kind& kind = *job.plan.parts[p].kind;
    for (const Adjusting& how : kind.adjusting) {
      const auto parameter = find_parameter(kind.parameters, how.parameter);
      if (parameter && has_a_value(job, p, *parameter)) add_setting(job, p, *parameter, places);
    }
  }
  std::vector<FaultPlace> good;
  for (FaultPlace& place : places) {
    if (within_what_goes_together(job, place)) good.push_back(std::move(place));
  }
  return good;
}

bool put_wrong_setting(Job& job, const FaultPlace& place, double t) {
  PlannedPart& part = job.plan.parts[place.on];
  const bool sound = goes_together(part);
  const Parameter& line = line_of(job, place);
  const double stated = part.values.all()[place.which], factor = place.size(t);
  if (std::isfinite(stated)) part.values.set(place.which, changed(stated, line, factor));
  for_each_command(job, place.on, place.which,
                   [&](Command& command) { command.target = changed(command.target, line, factor); });
  return !sound || goes_together(part);
}

std::string setting_change(const Job& job, const FaultPlace& place, double t) {
  const Parameter& line = line_of(job, place);
  const double stated = job.plan.parts[place.on].values.all()[place.which];
  std::string name(line.name);
  std::ranges::replace(name, '_', ' ');
  if (!std::isfinite(stated) || stated == 0.0) return fmt::format("{} × {:.3g}", name, place.size(t));
  return fmt::format("{} {}", name,
                     units::show(changed(stated, line, place.size(t)), line.quantity, job.world));
}

}  // namespace poise::study
