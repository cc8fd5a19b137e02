// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "prove/prove.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

#include "circuit/circuit.hpp"
#include "solve/run.hpp"

namespace poise {

std::vector<Signal> all_signals(const Plan& plan) {
  std::vector<Signal> all;
  for (int p = 0; p < static_cast<int>(plan.parts.size()); ++p)
    std::ranges::move(signals_of(plan, p), std::back_inserter(all));
  return all;
}

Proof prove(const Job& job, const ProveOptions& options) {
  std::vector<Signal> signals = options.record;
  for (Signal& signal : signals_needed(job)) {
    if (std::ranges::find(signals, signal.name, &Signal::name) == signals.end())
      signals.push_back(std::move(signal));
  }
  solve::RunOptions run{.glanced_at = signals_of_rules(job), .controls = job.controls};
  if (options.progress) run.progress = [&](double, double share) { return options.progress(share); };
  Proof proof;
  proof.trace = solve::run(build(job.plan), job.steps, signals, run);
  proof.verdict = judge(job, proof.trace);
  return proof;
}

}  // namespace poise
