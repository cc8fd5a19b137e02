// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/machine.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "circuit/circuit.hpp"
#include "solve/run.hpp"

namespace poise::study {

std::optional<Ran> run_machine(const Job& job, const RunWish& wish) {
  const Circuit circuit = build(job.plan);
  solve::RunOptions options{.controls = job.controls};
  if (wish.rules) options.glanced_at = signals_of_rules(job);
  long steps = 0;
  bool stopped = false;
  options.progress = [&](double, double share) {
    ++steps;
    stopped = wish.go_on && !wish.go_on(share);
    return !stopped && (wish.most_steps == 0 || steps <= wish.most_steps);
  };
  Trace trace = solve::run(circuit, job.steps, signals_needed(job), options);
  if (stopped) return std::nullopt;
  if (trace.halt && trace.halt->why == Halt::Why::stopped) {
    trace.halt->why = Halt::Why::stuck;
    trace.halt->sentence = "given up: it takes many times the work of the machine as stated";
  }
  return Ran{judge(job, trace), steps};
}

std::string why_no_study(const Verdict& verdict) {
  const bool followed = !verdict.halt || verdict.halt->by_the_machine();
  if (followed && verdict.books_close) return "";
  return fmt::format("the job as stated gives no answer: {}; mend that first (poise prove)",
                     followed ? "its books of oil and energy do not close" : verdict.halt->sentence);
}

long patience(long nominal_steps) {
  constexpr long times = 20, at_least = 100'000;
  return std::max(times * nominal_steps, at_least);
}

}  // namespace poise::study
