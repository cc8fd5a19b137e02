// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/setting.hpp"

#include <algorithm>
#include <limits>
#include <utility>

#include "rules/sight.hpp"

namespace poise::papers {
namespace {

const Adjusting* how_to(const Kind& kind, const Parameter& parameter) {
  const auto found = std::ranges::find(kind.adjusting, parameter.name, &Adjusting::parameter);
  return found == kind.adjusting.end() ? nullptr : &*found;
}

/// A command of a step, and when the run came to that step.
struct Told {
  std::string step;
  double value = 0.0, begins = 0.0, arrives = 0.0;
};

/// What steps tell an input, in order. The trace names the steps that the run came to, in the job's order.
std::vector<Told> told_by_steps(const Job& job, const Trace& trace, int part, int parameter) {
  std::vector<Told> all;
  for (std::size_t s = 0; s < job.steps.size(); ++s) {
    for (const Command& command : job.steps[s].commands) {
      if (command.part != part || job.plan.parts[part].kind->inputs[command.input] != parameter) continue;
      Told told{.step = job.steps[s].name, .value = command.target};
      told.begins = s < trace.steps.size() ? trace.steps[s].begin : std::numeric_limits<double>::infinity();
      told.arrives = told.begins + command.ramp;
      all.push_back(std::move(told));
    }
  }
  return all;
}

/// Values that controls tell an input, each once.
std::vector<Told> values_of_controls(const Job& job, int part, int parameter) {
  std::vector<Told> all;
  for (const Control& control : job.controls) {
    for (const Command& command : control.commands) {
      if (command.part == part && job.plan.parts[part].kind->inputs[command.input] == parameter)
        all.push_back({.step = control.name, .value = command.target});
    }
  }
  return all;
}

/// Adds a value, or to its stretches where the same value stands already.
void add(std::vector<Setting>& all, Setting setting) {
  const auto same = std::ranges::find(all, setting.value, &Setting::value);
  if (same == all.end()) {
    all.push_back(std::move(setting));
  } else {
    same->stands.insert(same->stands.end(), setting.stands.begin(), setting.stands.end());
  }
}

Setting told_to(const Setting& first, const Told& told, std::vector<Window> stands) {
  Setting setting = first;
  setting.value = told.value;
  setting.is_stated = true;
  setting.step = told.step;
  setting.stands = std::move(stands);
  return setting;
}

/// The value at the beginning and those that steps and controls give it, each once. When a control acts no
/// step tells, so that beside one every value may stand at any moment.
std::vector<Setting> values_of(const Job& job, const Trace& trace, Setting first, int parameter) {
  const Window run = whole(trace);
  const std::vector<Told> steps = told_by_steps(job, trace, first.part, parameter);
  const std::vector<Told> controls = values_of_controls(job, first.part, parameter);
  const auto begins = [&](std::size_t i) {
    return i < steps.size() ? std::min(steps[i].begins, run.end) : run.end;
  };
  first.stands = {{run.begin, controls.empty() ? begins(0) : run.end}};
  std::vector<Setting> all{first};
  for (std::size_t i = 0; i < steps.size(); ++i) {
    std::vector<Window> stands{run};
    if (controls.empty()) stands = {{steps[i].arrives, begins(i + 1)}};
    add(all, told_to(first, steps[i], std::move(stands)));
  }
  for (const Told& control : controls) add(all, told_to(first, control, {run}));
  all.front().is_changed = all.size() > 1;
  return all;
}

/// The value as the part has it; none where it states none and no curve tells.
std::optional<double> value_at_first(const rules::Sight& sight, int part, const Parameter& parameter) {
  if (const auto given = sight.given(part, parameter.name)) return given;
  if (sight.role(part) == Role::pressure_limit && parameter.name == "setting")
    return sight.limit(part).cracking;
  return std::nullopt;
}

/// Settings with a place in the order of work come before those without.
std::pair<bool, int> turn_of(const Setting& setting) {
  return setting.how ? std::pair(false, static_cast<int>(setting.how->turn)) : std::pair(true, 0);
}

}  // namespace

std::vector<Setting> settings_of(const Job& job, const Trace& trace) {
  const rules::Sight sight(job.plan, job.steps, job.controls, job.world);
  std::vector<Setting> all;
  for (int p = 0; p < sight.parts(); ++p) {
    const Kind& kind = *sight.part(p).kind;
    for (int i = 0; i < static_cast<int>(kind.parameters.size()); ++i) {
      const Parameter& parameter = kind.parameters[i];
      const Adjusting* how = how_to(kind, parameter);
      if (!parameter.adjusted && !how) continue;
      const auto value = value_at_first(sight, p, parameter);
      if (!value) continue;
      const bool is_stated = sight.given(p, parameter.name).has_value();
      const Setting first{
          .part = p, .parameter = &parameter, .how = how, .value = *value, .is_stated = is_stated};
      std::ranges::move(values_of(job, trace, first, i), std::back_inserter(all));
    }
  }
  std::ranges::stable_sort(all, {}, turn_of);
  return all;
}

}  // namespace poise::papers
