// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/commanded.hpp"

#include <algorithm>

namespace poise::draw {
namespace {

struct Given {
  double time;
  const std::vector<Command>* commands;
};

/// Steps before controls where both act at one moment.
std::vector<Given> given_in(const Job& job, const Trace& trace) {
  std::vector<Given> all;
  for (std::size_t i = 0; i < trace.steps.size() && i < job.steps.size(); ++i)
    all.push_back({trace.steps[i].begin, &job.steps[i].commands});
  for (const Event& event : trace.events) {
    const auto control = std::ranges::find(job.controls, event.control, &Control::name);
    if (!event.control.empty() && control != job.controls.end())
      all.push_back({event.time, &control->commands});
  }
  std::ranges::stable_sort(all, {}, &Given::time);
  return all;
}

}  // namespace

Input CommandedWay::at(double time) const {
  const double lasts = end - begin;
  return {from, to, lasts > 0.0 ? std::clamp((time - begin) / lasts, 0.0, 1.0) : 1.0};
}

std::vector<CommandedWay> ways_of(const Job& job, const Trace& trace, int part, int input) {
  const PlannedPart& planned = job.plan.parts[part];
  const int parameter = planned.kind->inputs[input];
  const bool no_half_way = planned.kind->parameters[parameter].no_half_way;
  const double start = planned.values.all()[static_cast<std::size_t>(parameter)];
  std::vector<CommandedWay> ways{{0.0, 0.0, start, start}};
  for (const Given& given : given_in(job, trace)) {
    for (const Command& command : *given.commands) {
      if (command.part != part || command.input != input) continue;
      // As the run does it: a spool goes on from where it was going, any other value from where it is.
      const CommandedWay& last = ways.back();
      const double from = no_half_way ? last.to : last.at(given.time).now();
      ways.push_back({given.time, given.time + command.ramp, from, command.target});
    }
  }
  return ways;
}

std::vector<Input> inputs_at(const Job& job, const Trace& trace, int part, double time) {
  std::vector<Input> inputs;
  for (int i = 0; i < static_cast<int>(job.plan.parts[part].kind->inputs.size()); ++i) {
    const auto ways = ways_of(job, trace, part, i);
    const CommandedWay* last = &ways.front();
    for (const CommandedWay& way : ways) {
      // What begins at this very moment belongs to the next step.
      if (way.begin < time) last = &way;
    }
    inputs.push_back(last->at(time));
  }
  return inputs;
}

}  // namespace poise::draw
