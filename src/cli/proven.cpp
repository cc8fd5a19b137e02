// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "cli/proven.hpp"

#include <algorithm>
#include <atomic>
#include <future>
#include <iterator>

#include "solve/run.hpp"

namespace poise::cli {

std::vector<Signal> all_signals(const Plan& plan) {
  std::vector<Signal> all;
  for (int p = 0; p < static_cast<int>(plan.parts.size()); ++p)
    std::ranges::move(signals_of(plan, p), std::back_inserter(all));
  return all;
}

Proven prove_fully(const Job& job, const Circuit& circuit,
                   const std::function<bool(double share)>& progress) {
  std::atomic<bool> go_on = true;
  auto verdict = std::async(std::launch::async, [&] {
    const Trace trace = solve::run(circuit, job.steps, signals_needed(job),
                                   {.glanced_at = signals_of_rules(job),
                                    .controls = job.controls,
                                    .progress = [&](double, double) { return go_on.load(); }});
    return judge(job, trace);
  });
  solve::RunOptions everything{.look_at_step_ends = true, .heat_of_parts = true, .controls = job.controls};
  everything.progress = [&](double, double share) {
    if (!progress(share)) go_on = false;
    return go_on.load();
  };
  Proven proven;
  proven.trace = solve::run(circuit, job.steps, all_signals(job.plan), everything);
  proven.verdict = verdict.get();
  return proven;
}

}  // namespace poise::cli
