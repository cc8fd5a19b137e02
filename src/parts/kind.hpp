// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <memory>
#include <span>
#include <string>

#include "parts/room.hpp"
#include "parts/working.hpp"

namespace poise {

/// A part's neighbourhood as the assembly hands it over, scalars erased. Each oil port has one lane, the
/// variable that its node's pressure and density hang on (the pressure itself, or the mass where the surface
/// is free).
struct Neighbourhood {
  struct OilLane {
    double pressure, density;
    double pressure_slope, density_slope;  ///< along the lane
  };
  std::array<OilLane, max_oil_ports> oil;
  std::array<double, max_states> state;
  std::array<Input, max_inputs> input;
  std::array<bool, max_modes> mode;
  std::array<MotionHere<double>, max_motion_ports> body;  // last: few parts have more than one
};

/// Answers in one row each: inflows, then forces, then rates.
struct Answers {
  std::array<double, max_answers> row;  // only those of the kind are set
  double shaft = 0.0, friction = 0.0, delivered = 0.0, gained = 0.0;
};

/// Lanes of a part's local Jacobian: oil ports, then position and speed of each motion port, then states.
inline constexpr int max_lanes = max_oil_ports + 2 * max_motion_ports + max_states;
/// Slopes row by row, each as long as the kind has lanes.
using LocalJacobian = std::array<double, std::size_t{max_lanes} * max_answers>;

/// The laws of one part with its numbers in: the type is erased here, once.
struct Laws {
  std::shared_ptr<const void> numbers;
  void (*answer)(const void*, const Neighbourhood&, Answers&);
  void (*jacobian)(const void*, const Neighbourhood&, LocalJacobian&);
  void (*report)(const void*, const Neighbourhood&, std::span<double> outputs);
  void (*passing)(const void*, const Neighbourhood&, std::span<double> values);
  void (*turning)(const void*, const Neighbourhood&, std::span<double> values);
  double (*stored)(const void*, const Neighbourhood&);
  Space (*space)(const void*, int port);
  Body (*body)(const void*, int port);
  double (*start)(const void*, int state);
  FreeSurface (*free_surface)(const void*);
};

/// A kind of part: its tables, and how to make its laws from values. What every other room of the house knows
/// of parts.
struct Kind {
  About about;
  std::span<const Parameter> parameters;
  std::span<const Port> ports;
  std::span<const State> states;
  std::span<const Mode> modes;
  std::span<const Output> outputs;
  std::span<const Happening> happenings;
  std::span<const Fault> faults;
  std::span<const Rule> rules;
  std::span<const Adjusting> adjusting;
  std::span<const Care> care;
  std::span<const Stroke> symbol;
  std::span<const Anchor> anchors;
  std::vector<Stroke> (*drawn)(const Values&, const Pose&);
  std::vector<int> inputs;  ///< indices of the parameters that steps may set
  int oil_ports, motion_ports;
  bool warms;
  std::vector<Mismatch> (*check)(const Values&);
  HeatPath (*heat_path)(const Values&);
  std::vector<CurveFit> (*curves)(const Values&, const Oil&);
  std::vector<Working> (*workings)(const Values&, const Oil&, const Duty&);
  int (*pieces)(const Values&);
  const Kind* (*as_built)(const Values&);
  Laws (*make)(const Values&, const Oil&);

  int lanes() const { return oil_ports + 2 * motion_ports + static_cast<int>(states.size()); }
  int rows() const { return oil_ports + motion_ports + static_cast<int>(states.size()); }
};

/// Whether a port of this kind exists with these values.
bool port_exists(const Port& port, const Values& values);
/// What a port that need not exist is there for: `drain = "external"`, or `3 points or more in points`.
std::string condition_of(const Port& port, std::span<const Parameter> table);

/// Every kind, in the order of the reference.
std::span<const Kind> all_kinds();
/// The kind by name, or null.
const Kind* find_kind(std::string_view name);

}  // namespace poise
