// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>

#include "solve/halts.hpp"

namespace poise::solve {

/// Sees whether a run gets on: not for ever, and not on the spot. Counts steps, never time.
class Patience {
 public:
  Patience(double begin, long most_steps) : mark_(begin), most_steps_(most_steps) {}

  /// After a step that ended so: why the run ends here, or none.
  std::optional<Halt> ends(Integrator::End end, const Integrator& integrator, const Equations& equations) {
    if (integrator.time() > mark_ + standstill) {
      mark_ = integrator.time();
      since_mark_ = 0;
    }
    if (end == Integrator::End::stuck || ++since_mark_ > futile_steps) return stuck_at(integrator, equations);
    if (integrator.steps() > most_steps_) return given_up_at(integrator, equations);
    return std::nullopt;
  }

 private:
  /// A run that takes this many steps without getting on by `standstill` is stuck.
  static constexpr int futile_steps = 20000;
  static constexpr double standstill = 1e-6;  // s

  double mark_;
  long most_steps_;
  int since_mark_ = 0;
};

}  // namespace poise::solve
