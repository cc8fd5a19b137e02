// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "circuit/circuit.hpp"
#include "job/job.hpp"
#include "trace/trace.hpp"

namespace poise::diagnose {

/// By what something is read on a machine.
enum class Instrument {
  gauge,           ///< one of the circuit
  portable_gauge,  ///< at any port that lines join
  contact,         ///< lamp of a pressure switch: 1 made, 0 not
  rule,            ///< where an actuator stands
  stop_watch,      ///< from the beginning of the step until an actuator has done nearly all of its way
  bucket,          ///< oil that comes out of a line into the reservoir
  thermometer,     ///< the oil's, once for the whole cycle
};

/// At which moment of a step.
enum class When {
  end,
  half_way,  ///< half of the step's time is gone
  starts,    ///< an actuator begins to move
  moves,     ///< it has done half of its way
  after,     ///< a time after the step's beginning
};

/// The way that an actuator goes in a step on the sound machine, which is the one it is meant to go.
struct Way {
  int motion = 0;  ///< motion port
  double from = 0.0, to = 0.0;
};

/// One thing that can be read on a machine, and when.
struct Watch {
  Instrument instrument = Instrument::gauge;
  Signal signal{};  ///< what the run records of it; of a thermometer none
  std::size_t step = 0;
  When when = When::end;
  int mover = -1;         ///< the actuator that starts or moves
  Way way{};              ///< of the mover in this step
  double after = 0.0;     ///< s from the step's beginning
  std::string at{};       ///< as people write it: "G1", "R1.A", "K1.position", "K1.time", "V3.T.flow", "oil"
  double accuracy = 0.0;  ///< SI; the instrument is off by no more
};

/// The next usual range of a gauge for a pressure, Pa (EN 837-1).
double range_above(double pressure);

/// The quantity in which it is read.
Quantity quantity_of(const Watch& watch);
/// `at the end of "clamp"`, `as K1 starts in "clamp"`, `1.20 s into "drill"`; empty for a thermometer.
std::string moment_of(const Watch& watch, const Job& job);
/// `G1 at the end of "clamp"`
std::string name_of(const Watch& watch, const Job& job);

/// Everything that can be read on the sound machine: its gauges, a portable one wherever lines join,
/// contacts, places and times of actuators, oil that comes back, the oil's temperature; at the ends and in
/// the middle of steps, as each actuator starts, and while it moves. Gauges also at the quarters of a
/// step's time, for logs. `sound` is the sound machine's run with at least `signals_to_list`.
std::vector<Watch> list_watches(const Job& job, const Circuit& circuit, const Trace& sound);
std::vector<Signal> signals_to_list(const Job& job);

/// The signals that a run has to record for these watches, each once, those of actuators and gauges first;
/// `followed` becomes the number of these.
std::vector<Signal> signals_for(const Job& job, const std::vector<Watch>& watches, std::size_t& followed);

/// What a run shows, SI, one value for each watch; NaN where its moment does not come. `job` is the one that
/// was run, of which the steps are those of the watches.
std::vector<double> seen(const Job& job, const Trace& trace, const std::vector<Watch>& watches);

}  // namespace poise::diagnose
