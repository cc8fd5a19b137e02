// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "cli/proven.hpp"

#include <atomic>
#include <future>

#include "solve/run.hpp"

namespace poise::cli {

Proof prove_fully(const Job& job, const Circuit& circuit, const std::function<bool(double share)>& progress) {
  std::atomic<bool> go_on = true;
  auto verdict = std::async(std::launch::async, [&] {
    return prove(job, {.progress = [&](double) { return go_on.load(); }}).verdict;
  });
  solve::RunOptions everything{.look_at_step_ends = true, .heat_of_parts = true, .controls = job.controls};
  everything.progress = [&](double, double share) {
    if (!progress(share)) go_on = false;
    return go_on.load();
  };
  Proof proven;
  proven.trace = solve::run(circuit, job.steps, all_signals(job.plan), everything);
  proven.verdict = verdict.get();
  return proven;
}

}  // namespace poise::cli
