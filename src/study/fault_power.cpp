// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A pump's motor stops, or all power goes, in the middle of a step.
#include <fmt/format.h>

#include <algorithm>

#include "study/fault_parts.hpp"

namespace poise::study {
namespace {

using Of = FaultPlace::Of;

/// The input that switches a source on and off, and what it is when it is off; none where people move it.
std::optional<int> switched_by(const Kind& kind) {
  for (std::string_view name : {"running", "air_pressure"}) {
    const int input = input_of(kind, name);
    if (input >= 0) return input;
  }
  return std::nullopt;
}

bool is_directional(const Kind& kind) { return kind.about.kind.starts_with("directional"); }

bool commands(const std::vector<Command>& list, int part) {
  return std::ranges::any_of(list, [&](const Command& command) { return command.part == part; });
}

bool controls_work(const Job& job, int part) {
  return std::ranges::any_of(job.controls, [&](const Control& c) { return commands(c.commands, part); });
}

/// What an input is set to as each step goes on, controls left out.
std::vector<double> through_steps(const Job& job, int part, int input) {
  const PlannedPart& of = job.plan.parts[part];
  double now = of.values.all()[of.kind->inputs[input]];
  std::vector<double> values;
  for (const Step& step : job.steps) {
    for (const Command& command : step.commands) {
      if (command.part == part && command.input == input) now = command.target;
    }
    values.push_back(now);
  }
  return values;
}

/// The way a command to this part takes, s.
double ramp_of(const PlannedPart& part) {
  const std::string_view ramp = part.kind->about.ramp;
  return ramp.empty() ? 0.0 : part.values[ramp];
}

std::vector<int> all_where(const Job& job, bool (*is)(const Kind&)) {
  std::vector<int> parts;
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    if (is(*job.plan.parts[p].kind)) parts.push_back(p);
  }
  return parts;
}

std::vector<int> sources_of(const Job& job) {
  return all_where(job, [](const Kind& kind) { return switched_by(kind).has_value(); });
}

bool any_runs(const Job& job, int step) {
  return std::ranges::any_of(sources_of(job), [&](int p) {
    return through_steps(job, p, *switched_by(*job.plan.parts[p].kind))[step] > 0.0;
  });
}

void add_source(const Job& job, const Trace* nominal, int p, FaultList& list) {
  const PlannedPart& part = job.plan.parts[p];
  if (controls_work(job, p)) {
    list.not_applicable.push_back({part.tag + " stops", "controls switch it, and would switch it on again"});
    return;
  }
  const auto running = through_steps(job, p, *switched_by(*part.kind));
  for (int s = 0; s < static_cast<int>(job.steps.size()); ++s) {
    const double middle = middle_of(job, nominal, s);
    if (running[s] <= 0.0 || middle <= 0.0) continue;
    list.places.push_back({.of = Of::source_stops,
                           .name = fmt::format("{} stops in \"{}\"", part.tag, job.steps[s].name),
                           .part = part.tag,
                           .fault = fmt::format("stops in the middle of \"{}\"", job.steps[s].name),
                           .sentence = "Its motor trips, its cable or its air fails, and it stays off.",
                           .source = "common practice",
                           .on = p,
                           .step = s,
                           .time = middle,
                           .one_size = true});
  }
}

void add_all_power(const Job& job, const Trace* nominal, FaultList& list) {
  const auto worked = [&](int p) { return controls_work(job, p); };
  if (sources_of(job).empty()) return;
  if (std::ranges::any_of(sources_of(job), worked) ||
      std::ranges::any_of(all_where(job, is_directional), worked)) {
    list.not_applicable.push_back({"power fails", "controls switch what it drives, and would do so again"});
    return;
  }
  for (int s = 0; s < static_cast<int>(job.steps.size()); ++s) {
    const double middle = middle_of(job, nominal, s);
    if (middle <= 0.0 || !any_runs(job, s)) continue;
    list.places.push_back({.of = Of::power_lost,
                           .name = fmt::format("power fails in \"{}\"", job.steps[s].name),
                           .fault = fmt::format("power fails in the middle of \"{}\"", job.steps[s].name),
                           .sentence =
                               "All supply is lost and stays so: pumps stop, directional valves go to "
                               "the position in which the job begins.",
                           .source = "university page on ISO 4413 (loss of power makes no hazard)",
                           .step = s,
                           .time = middle,
                           .one_size = true});
  }
}

/// From a step on a part is set to `target` and heeds nothing more.
void leave_at(Job& job, int from, int part, int input, double target) {
  for (std::size_t s = static_cast<std::size_t>(from); s < job.steps.size(); ++s)
    std::erase_if(job.steps[s].commands,
                  [&](const Command& c) { return c.part == part && c.input == input; });
  job.steps[from].commands.push_back({part, input, target, ramp_of(job.plan.parts[part])});
}

}  // namespace

void add_faults_of_power(const Job& job, const Trace* nominal, FaultList& list) {
  for (int p : sources_of(job)) add_source(job, nominal, p, list);
  add_all_power(job, nominal, list);
}

bool put_power_fault(Job& job, const FaultPlace& place) {
  split_step(job, place.step, place.time);
  const int from = place.step + 1;
  if (place.of == Of::source_stops) {
    leave_at(job, from, place.on, *switched_by(*job.plan.parts[place.on].kind), 0.0);
    return true;
  }
  for (int p : sources_of(job)) leave_at(job, from, p, *switched_by(*job.plan.parts[p].kind), 0.0);
  for (int p : all_where(job, is_directional)) {
    const PlannedPart& valve = job.plan.parts[p];
    leave_at(job, from, p, 0, valve.values["position"]);
  }
  return true;
}

}  // namespace poise::study
