// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>

#include "circuit/circuit.hpp"
#include "job/job.hpp"
#include "judge/verdict.hpp"
#include "trace/trace.hpp"

namespace poise::cli {

/// Every signal of every part, in the plan's order.
std::vector<Signal> all_signals(const Plan& plan);

/// A run that says everything, and the verdict.
struct Proven {
  Verdict verdict;  ///< to the last digit the one that `poise prove` gives
  Trace trace;      ///< all signals, a moment at the end of each step, the heat of each part
};

/// Runs a job twice at once: as `poise prove` does, for the verdict, and with everything recorded. More
/// signals mean more rows, and more rows a last digit that differs; papers are to agree with the screen.
/// `progress` is told the share done, now and then, and says false to stop both.
Proven prove_fully(const Job& job, const Circuit& circuit, const std::function<bool(double share)>& progress);

}  // namespace poise::cli
