// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "trace/trace.hpp"

namespace poise::solve {

/// How many times tighter than asked for a run may be repeated, by the last one: 1 where its books close or
/// where it was stopped or given up after long work. A short run may go as far as digits carry: its energy
/// may be millijoules, less than a run is asked to tell apart.
inline double tightest(const Trace& trace) {
  constexpr long steps_of_a_short_run = 50'000;
  if (trace.books.energy_share() <= Books::energy_closes) return 1.0;
  if (trace.halt && trace.halt->why == Halt::Why::stopped) return 1.0;
  if (trace.solver_steps <= steps_of_a_short_run) return 1e5;
  return trace.halt && !trace.halt->by_the_machine() ? 1.0 : 100.0;
}

}  // namespace poise::solve
