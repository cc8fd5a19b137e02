// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "circuit/circuit.hpp"
#include "draw/sheet.hpp"
#include "job/job.hpp"
#include "trace/trace.hpp"

namespace poise::draw {

/// What is asked of a chart.
struct ChartWish {
  double width = 297.0, height = 210.0;   ///< of the paper, mm
  Box content{12.0, 12.0, 285.0, 198.0};  ///< what of it the chart may use
  std::vector<std::string> names;  ///< signals, or of the motion chart parts by tag; empty: what matters most
  bool cautious = true;            ///< whether it says itself what it is not, as a title block does
  std::string part;                ///< tag: the part whose curve, or the actuator whose way is drawn
};

/// Pressures, flows, positions and forces over the steps, one panel for each quantity, with the limits that
/// the job sets them. The trace must have `cycle_signals`.
Sheet cycle_chart(const Job& job, const Trace& trace, const ChartWish& wish);
/// The signals that were asked for, which must exist; else those that a practitioner looks at first:
/// pressures at pumps, actuators and gauges, flows of pumps and actuators, positions, forces, and whatever a
/// requirement is about.
std::vector<Signal> cycle_signals(const Job& job, const ChartWish& wish);

/// What moves when: one band for each actuator, for each valve and switch that changes its state, and for
/// each valve that opens by itself. The trace must have `motion_signals`.
Sheet motion_chart(const Job& job, const Trace& trace, const ChartWish& wish);
std::vector<Signal> motion_signals(const Job& job, const ChartWish& wish);

/// Pressure along the oil's way at a moment of the trace: from the reservoir to each actuator and back, with
/// the loss in each part. The circuit must be that of the job.
Sheet way_chart(const Job& job, const Circuit& circuit, const Trace& trace, const Moment& moment,
                const ChartWish& wish);

/// The curve of one part, by its own law, with the operating points of the trace's moments on it. The part
/// must be one of `parts_with_curve`.
Sheet valve_chart(const Job& job, const Trace& trace, const ChartWish& wish);
/// Tags of the parts that have a curve to draw.
std::vector<std::string> parts_with_curve(const Plan& plan);

}  // namespace poise::draw
