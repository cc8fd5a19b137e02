// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <vector>

#include "job/job.hpp"
#include "judge/verdict.hpp"
#include "trace/trace.hpp"

namespace poise {

/// A job's whole cycle, run and judged.
struct Proof {
  Verdict verdict;
  Trace trace;  ///< what was recorded on the way
};

/// How a job is proven.
struct ProveOptions {
  /// Signals that are recorded ahead of those that judging needs. More signals mean more rows, and more rows
  /// another last digit.
  std::vector<Signal> record{};
  /// Told the share of the work that is done (0…1) now and then; says false to stop. May be empty.
  std::function<bool(double share)> progress{};
};

/// Every signal of every part, in the plan's order.
std::vector<Signal> all_signals(const Plan& plan);

/// Runs a job's whole cycle and judges every requirement, every rating and the rules of the trade. What goes
/// wrong with the run itself stands in the verdict (`Verdict::halt`).
Proof prove(const Job& job, const ProveOptions& options = {});

}  // namespace poise
