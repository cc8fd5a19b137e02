// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "draw/at_rest.hpp"
#include "draw/geometry.hpp"
#include "job/job.hpp"
#include "trace/trace.hpp"

namespace poise::draw {

/// What a part's curve is drawn over.
enum class CurveShape {
  drop,      ///< pressure that a restriction takes, over its flow
  inlet,     ///< pressure before a valve that opens by it, over its flow
  outlet,    ///< pressure behind a valve that holds it down, over its flow
  delivery,  ///< flow of a pump, over its outlet pressure
};

/// The shape of a part's curve; none for parts that have no curve: actuators, loads, dividers.
std::optional<CurveShape> curve_shape(const PlannedPart& part, const Oil& oil);

/// Where the part stood at a moment: flow along the way, m3/s, and pressure, Pa, as the shape wants them.
struct OperatingPoint {
  std::string step;
  double flow = 0.0, pressure = 0.0;
};

/// One curve of a part: in one setting, from one port to another, with the same pressures around it, and the
/// moments it is about.
struct PartCurve {
  int in = 0, out = 1;
  Around around;
  std::string label;
  std::vector<Point> points;  ///< x flow, m3/s, y pressure, Pa; of a pump x pressure, y flow
  std::vector<OperatingPoint> at;
};

/// All of a part that a chart shows.
struct Characteristic {
  CurveShape shape = CurveShape::drop;
  double most_flow = 0.0;      ///< up to which the curves are drawn, m3/s
  double most_pressure = 0.0;  ///< Pa; likewise
  std::vector<PartCurve> curves;
  std::vector<OperatingPoint> idle;  ///< moments that lie on no curve: nothing flows, nothing is regulated
};

/// The curves by the part's own law, each with its operating points, from the trace's moments.
Characteristic characteristic_of(const Job& job, const Trace& trace, int part);

}  // namespace poise::draw
