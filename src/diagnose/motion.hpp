// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "circuit/circuit.hpp"
#include "job/job.hpp"
#include "trace/trace.hpp"

namespace poise::diagnose {

/// Something that moves as one: the first actuator on it, with its position.
struct Body {
  int part = 0;
  Signal position;
};
std::vector<Body> bodies_of(const Job& job, const Circuit& circuit);

/// An actuator that goes somewhere in a step.
struct Motion {
  std::size_t step = 0;
  int part = 0;
  Signal position;
  std::string name;  ///< its signal's, without the word for position: "K1"
  double from = 0.0, to = 0.0;
};

/// The motions of the run: each actuator's in each step that leaves it elsewhere, by 1 mm or a thousandth of
/// a turn at least.
std::vector<Motion> motions_of(const Job& job, const Trace& trace);

/// When, within a step, a position first is at or past a goal on its way up or down, s of the run; none where
/// it does not get there.
std::optional<double> when_passed(const Trace& trace, const StepSpan& span, int column, double goal,
                                  bool upwards);

/// A column's value at a time, straight between rows; of two rows of one time the later one, but the earlier
/// one where `before`. NaN where there is no row.
double value_at(const Trace& trace, int column, double time, bool before = false);

}  // namespace poise::diagnose
