// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <utility>
#include <vector>

#include "solve/equations.hpp"
#include "solve/integrator.hpp"
#include "trace/trace.hpp"

namespace poise::solve {

/// Writes rows of signals into a trace. Between the ends of a step it adds rows from the method's own
/// interpolation wherever a straight line would miss one of the first `followed` signals by more than a
/// five-thousandth of the range it has run through so far; the others are noted in the same rows.
class Recorder {
 public:
  Recorder(Equations& equations, Trace& trace, std::size_t followed);

  /// A row at this moment (the first of a run, or after a jump).
  void row(double time, const double* y);
  /// The row at the end of the integrator's last step, with rows before it as needed.
  void step(const Integrator& integrator);

 private:
  /// Ports of one node share one pressure: it is asked for once.
  void find_copies();
  void sample(double time, const double* y, std::vector<double>& into);
  void push(double time, const std::vector<double>& values);
  /// Whether the last two rows and this one foretell that no middle will stand off the line.
  bool runs_straight(double t1, const std::vector<double>& v1) const;
  void fill(const Integrator& integrator, double t0, const std::vector<double>& v0, double t1,
            const std::vector<double>& v1, int depth);

  Equations& equations_;
  Trace& trace_;
  std::vector<std::size_t> distinct_;                        ///< signals that are asked for
  std::vector<std::size_t> followed_;                        ///< of these, those that decide on rows
  std::vector<std::pair<std::size_t, std::size_t>> copies_;  ///< signal, and the one that it is the same as
  std::vector<double> y_, low_, high_, last_, before_, now_;
  double before_time_;  ///< of the row before the last, NaN after a jump
};

}  // namespace poise::solve
