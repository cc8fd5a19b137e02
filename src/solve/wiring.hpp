// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <vector>

#include "circuit/schedule.hpp"
#include "solve/equations.hpp"
#include "trace/trace.hpp"

namespace poise::solve {

/// Least room that conditions have, as a share of their thresholds, at the moment last given to `observe`:
/// positive when all hold.
double room_of(const std::vector<Condition>& conditions, Equations& equations);

/// Sends the inputs that commands name on their way.
void carry_out(const std::vector<Command>& commands, double now, Equations& equations);

/// The next time after `now` at which an input comes to the end of its way; no_limit if none is on one.
double next_break(double now, const Equations& equations);

/// What the trace says as a control acts.
Event event_of(const Control& control, double now, const Circuit& circuit);

/// The controls of a run, and which of them have acted and wait for their conditions to end.
class Wiring {
 public:
  /// Throws std::logic_error where a control has no condition or no command.
  explicit Wiring(const Controls& controls);

  std::size_t size() const { return wires_.size(); }
  /// One crossing for each: the beginning of its conditions, or, of one that has acted, their end.
  void crossings(Equations& equations, double* values) const;
  /// Those whose conditions have come to hold; they count as having acted from now on. `crossed` tells which
  /// crossings have been located at this moment; empty: none.
  std::vector<const Control*> due(Equations& equations, double now, std::span<const int> crossed);

 private:
  struct Wire {
    const Control* control;
    bool acted = false;
  };
  std::vector<Wire> wires_;
};

}  // namespace poise::solve
