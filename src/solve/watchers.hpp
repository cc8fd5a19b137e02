// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "solve/onlooker.hpp"
#include "solve/recorder.hpp"

namespace poise::solve {

/// The two that watch a run: every row and every step is told to both.
struct Watchers {
  Recorder recorder;
  Onlooker onlooker;

  Watchers(Equations& equations, Trace& trace, std::size_t followed, double planned)
      : recorder(equations, trace, followed), onlooker(equations, trace, planned) {}

  void row(double time, const double* y) {
    recorder.row(time, y);
    onlooker.look(time, y);
  }
  /// The onlooker first: the end of the step is known to the equations already, what the recorder looks at
  /// inside is not.
  void step(const Integrator& integrator) {
    onlooker.step(integrator);
    recorder.step(integrator);
  }
};

}  // namespace poise::solve
