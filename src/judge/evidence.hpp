// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "job/job.hpp"
#include "judge/curve.hpp"
#include "judge/verdict.hpp"

namespace poise {

/// What one requirement is judged on: the stretches of the run that it is about, as far as the run got.
struct Evidence {
  const Job& job;
  const Trace& trace;
  std::span<const std::string> during;  ///< names of steps; empty: the whole cycle
  std::vector<Window> windows;          ///< in order of time
  bool to_the_end = true;               ///< false: the run ended before these stretches did

  double begin() const { return windows.front().begin; }
  double end() const { return windows.back().end; }
  std::string tag(const Signal& signal) const { return job.plan.parts[signal.part].tag; }
};

Evidence evidence_for(const Requirement& requirement, const Job& job, const Trace& trace);

/// The step of a moment, if it is one of `during` (empty: any); where two steps meet, the one that ends
/// there.
std::string step_at(double time, const std::vector<StepSpan>& steps,
                    std::span<const std::string> during = {});

/// "the run ended in step "clamp"": why there is nothing to see.
std::string where_it_ended(const Trace& trace);

/// What becomes of a finding that held as far as the run got, and the run ended before it was through: it is
/// not proven, so it is broken, without a margin.
Finding as_far_as_seen(const Finding& seen, const Trace& trace, const units::World& world);

/// Margin as a share of what was promised, or none where that is zero.
std::optional<double> share_of(double margin, double promised);

}  // namespace poise
