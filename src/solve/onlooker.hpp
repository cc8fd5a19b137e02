// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <utility>
#include <vector>

#include "solve/equations.hpp"
#include "solve/integrator.hpp"
#include "trace/trace.hpp"

namespace poise::solve {

/// Looks at many signals now and then, for a small part of what recording them costs: at every sixteenth step
/// of the integrator, which are close together where much happens, and at the end of a step where a
/// four-hundredth of the planned time has gone by. Of pressures it notes the highest and lowest of all steps.
class Onlooker {
 public:
  Onlooker(Equations& equations, Trace& trace, double planned);

  /// Looks at this moment in any case: the first of a run, or after a jump.
  void look(double time, const double* y);
  /// Looks at the end of the integrator's last step if it is time to.
  void step(const Integrator& integrator);

 private:
  void glance(double time);
  void note_extremes(double time);

  Equations& equations_;
  Glances& glances_;
  double interval_;
  int since_ = 0;
  std::vector<std::pair<std::size_t, std::size_t>>
      of_part_;                                     ///< first and one past the last signal of each part
  std::vector<std::pair<std::size_t, int>> nodes_;  ///< signals that are pressures, and their nodes
  std::vector<double> values_;
};

}  // namespace poise::solve
