// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "circuit/circuit.hpp"
#include "job/job.hpp"
#include "trace/trace.hpp"

namespace poise::draw {

/// What the oil goes through between two volumes on its way, or would go through if it moved.
struct Passage {
  int part = 0;
  int in = 0, out = 0;  ///< oil ports, along the way
  double drop = 0.0;    ///< Pa, from `in` to `out`; negative where a pump raises it
  double flow = 0.0;    ///< m3/s along the way
  bool works = false;   ///< the actuator itself: two volumes with a piston between them
};

/// The oil's way past one actuator: volumes with their pressure, and the passages between them, one fewer.
struct OilsWay {
  std::vector<int> actuators;    ///< several where all goes alike
  std::vector<double> pressure;  ///< Pa, of each volume
  std::vector<Passage> passages;
  int begins = -1, ends = -1;  ///< the reservoir, accumulator or actuator there; −1: none
  bool only_back = false;      ///< it begins at the actuator, which only gives oil
};

/// The ways from a reservoir, or from an accumulator that gives, to each actuator and on to a reservoir at a
/// moment of a trace. Each follows the flow where there is any; where there is none, what stands open or
/// would be opened by pressure; at last what another position of a valve would open. Actuators that differ
/// in nothing but themselves share one.
std::vector<OilsWay> oils_ways(const Job& job, const Circuit& circuit, const Trace& trace,
                               const Moment& moment, const std::vector<int>& actuators);

}  // namespace poise::draw
