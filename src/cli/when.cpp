// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "cli/when.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "job/section.hpp"

namespace poise::cli {

std::optional<When> read_when(const std::string& at, const Job& job) {
  if (std::ranges::find(job.steps, at, &Step::name) != job.steps.end()) return When{.step = at, .time = {}};
  const units::Reading reading = units::read(at, Quantity::time);
  if (reading.value && *reading.value >= 0.0) return When{.step = {}, .time = reading.value};
  std::vector<std::string> names;
  for (const Step& step : job.steps) names.push_back(step.name);
  fmt::print(stderr, "--at: {} is no step of this job, and no time such as \"3.5 s\"{}; its steps are {}\n",
             job::quote(at), job::hint(at, names), job::listed(names, "and"));
  return std::nullopt;
}

const Moment* find_moment(const Trace& trace, const When& when, const Job& job) {
  const auto moment = std::ranges::find_if(
      trace.moments, [&](const Moment& m) { return when.time ? m.time == *when.time : m.step == when.step; });
  if (moment == trace.moments.end()) {
    fmt::print(stderr, "the run did not get there: {}\n",
               trace.halt ? trace.halt->sentence
                          : fmt::format("the cycle ends at {}",
                                        units::show(trace.time.back(), Quantity::time, job.world)));
    return nullptr;
  }
  if (trace.halt && trace.halt->why != Halt::Why::stopped)
    fmt::print(stderr, "the run ended early: {}\n", trace.halt->sentence);
  return &*moment;
}

}  // namespace poise::cli
