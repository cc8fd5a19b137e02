// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <limits>
#include <vector>

#include "circuit/schedule.hpp"
#include "solve/equations.hpp"
#include "trace/trace.hpp"

namespace poise::solve {

/// How a run is done.
struct RunOptions {
  Tolerances tolerances;
  /// Steps of the integrator after which a run is given up: an hour of a busy machine. What would take
  /// ever more of them, such as controls that chase each other for a day, ends here.
  long most_steps = 2'000'000;
  double settle_at_most = 20.0;    ///< s; the circuit comes to rest in its first positions before time 0
  double burst_pressure = 3000e5;  ///< Pa; past this no part of the trade is whole and the run stops
  bool look_at_step_ends = false;  ///< whether the trace gets a Moment at the end of each step
  std::vector<double> look_at{};   ///< times at which it gets one, rising
  bool heat_of_parts = false;      ///< whether the heat of each part is summed
  /// How many of the signals, from the first, the rows are made to follow (`Recorder`); the others are noted
  /// with them.
  std::size_t followed = std::numeric_limits<std::size_t>::max();
  std::vector<Signal>
      glanced_at{};     ///< signals that are looked at now and then (`Glances`), those of a part together
  Controls controls{};  ///< act from time 0 on, beside the steps
  /// Told the machine time and the work done so far (0…1) now and then; says false to stop the run. May be
  /// empty.
  std::function<bool(double time, double share)> progress;
};

/// Runs the steps and records the signals. The trace says so where the run had to end early.
Trace run(const Circuit& circuit, const Schedule& steps, const std::vector<Signal>& signals,
          const RunOptions& options = {});

}  // namespace poise::solve
