// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "circuit/signal.hpp"

namespace poise {

/// A change that the operator or the machine makes: an input of a part goes to `target` within `ramp`
/// seconds.
struct Command {
  int part = 0;
  int input = 0;  ///< index into the kind's inputs
  double target = 0.0;
  double ramp = 0.0;
};

/// A signal above or below a value.
struct Condition {
  Signal signal;
  bool above = true;
  double threshold = 0.0;

  /// Positive when it holds, in the signal's SI unit.
  double room(double value) const { return above ? value - threshold : threshold - value; }
};

/// One step of the cycle: commands at its start, then a time, or until all conditions hold (but not for
/// ever).
struct Step {
  std::string name;
  std::vector<Command> commands;
  double lasts = 0.0;            ///< s; the longest wait where there are conditions
  std::vector<Condition> until;  ///< empty: it lasts its time
  Place place;
};

using Schedule = std::vector<Step>;

/// Wiring that acts through the whole cycle: each time all its conditions come to hold together, its commands
/// are carried out, once; again only after they have ceased to hold.
struct Control {
  std::string name;
  std::vector<Condition> when;
  std::vector<Command> commands;
  Place place;
};

using Controls = std::vector<Control>;

}  // namespace poise
