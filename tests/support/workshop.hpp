// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>

#include "circuit/circuit.hpp"
#include "circuit/schedule.hpp"
#include "solve/run.hpp"

namespace poise::workshop {

/// Puts circuits together in tests without a file: parts with SI numbers, joints by name, steps. Throws
/// std::runtime_error with the reason when something does not fit, so that a mistyped test fails loudly.
class Bench {
 public:
  Plan plan;
  Schedule steps;

  using Numbers = std::initializer_list<std::pair<std::string_view, double>>;
  /// Parameters by name; those not given take their default.
  void part(const std::string& tag, std::string_view kind, Numbers numbers = {});
  /// Overwrites one value of a part.
  void set(std::string_view tag, std::string_view parameter, double value);
  /// Gives a part a curve of its datasheet.
  void points(std::string_view tag, std::string_view parameter, Points points);
  /// Joins all named ports, "P1.P".
  void join(std::initializer_list<std::string_view> ports);
  void plug(std::string_view name);

  struct Turn {
    std::string_view part;
    std::string_view parameter;
    double target;
    double ramp = 0.0;
  };
  /// A step that lasts a time.
  void step(const std::string& name, double lasts, std::initializer_list<Turn> turns = {});

  Signal signal(std::string_view name) const;
  /// The values of a part, for its laws alone.
  const Values& values(std::string_view tag) const { return plan.parts[find(tag)].values; }
  Trace run(std::initializer_list<std::string_view> signals, const solve::RunOptions& options = {}) const;

 private:
  int find(std::string_view tag) const;
  PortOf port(std::string_view name) const;
};

/// Last value of a signal.
double last(const Trace& trace, std::string_view signal);
/// Greatest and smallest value of a signal.
double highest(const Trace& trace, std::string_view signal);
double lowest(const Trace& trace, std::string_view signal);
/// Value at a time, on the straight line between rows.
double at(const Trace& trace, std::string_view signal, double time);
/// First time the signal is at or above a value; NaN if never.
double first_above(const Trace& trace, std::string_view signal, double value);

}  // namespace poise::workshop
