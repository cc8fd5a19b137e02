// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "papers/subject.hpp"
#include "papers/table.hpp"

namespace poise::papers {

/// A way that an actuator went within a step, SI. It counts as moving from the first to the last hundredth of
/// the way.
struct Way {
  std::size_t step = 0;  ///< of the trace
  int part = 0;
  Signal signal;  ///< the position
  double from = 0.0, to = 0.0;
  double begins = 0.0, took = 0.0;  ///< s from the beginning of the step
  double length() const { return to > from ? to - from : from - to; }
};

/// The ways of all actuators, step by step in the plan's order; one that turns back within a step has a way
/// for each stroke. What moves by less than 1 mm, or turns by less than a thousandth of a turn, stands.
std::vector<Way> ways_of(const Subject& subject);

/// Whether it is a motor's.
bool turns(const Way& way);
/// A place on it for people: a length, of a motor turns.
Cell place_of(const Way& way, double value, const units::World& world);

/// "V1 to a, F1 force 6.00 kN": what a step sets.
std::string commands_in_words(const Step& step, const Job& job);

/// "G1 210 bar": what each gauge reads at the end of a step; empty where the run did not get there.
std::vector<std::string> readings_at_end(std::size_t step, const Subject& subject);

/// The moment at the end of a step of the trace, or null.
const Moment* end_of(std::size_t step, const Subject& subject);

/// Step, actuator, from, to, when it begins, how long it takes, mean speed.
Table table_of(const std::vector<Way>& ways, const Subject& subject);

}  // namespace poise::papers
