// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

#include "draw/chart.hpp"
#include "solve/run.hpp"

namespace poise::draw::scene {

/// A job of the repository and what came of running it, with every signal that a chart may want and a look at
/// the end of each step.
struct Run {
  Job job;
  Circuit circuit;
  Trace trace;
};

inline Run run_of(const std::string& file, const ChartWish& wish = {}) {
  auto read = read_job_file(std::string(POISE_SOURCE_DIR "/") + file);
  if (std::holds_alternative<Complaints>(read)) throw std::runtime_error(file + " is no job");
  Job job = std::get<Job>(std::move(read));
  std::vector<Signal> signals = cycle_signals(job, wish);
  for (const Signal& signal : motion_signals(job, wish)) signals.push_back(signal);
  Circuit circuit = build(job.plan);
  Trace trace =
      solve::run(circuit, job.steps, signals, {.look_at_step_ends = true, .controls = job.controls});
  return {std::move(job), std::move(circuit), std::move(trace)};
}

/// Every chart of a run.
inline std::vector<Sheet> charts_of(const Run& run) {
  std::vector<Sheet> all{cycle_chart(run.job, run.trace, {}), motion_chart(run.job, run.trace, {})};
  for (const Moment& moment : run.trace.moments)
    all.push_back(way_chart(run.job, run.circuit, run.trace, moment, {}));
  for (const std::string& tag : parts_with_curve(run.job.plan)) {
    ChartWish wish;
    wish.part = tag;
    all.push_back(valve_chart(run.job, run.trace, wish));
  }
  return all;
}

}  // namespace poise::draw::scene
