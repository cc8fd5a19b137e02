// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "circuit/circuit.hpp"
#include "draw/schematic.hpp"
#include "draw/wire_tree.hpp"
#include "parts/pose.hpp"
#include "trace/trace.hpp"

namespace poise::draw {

/// A line at a moment: its pressure, Pa, and its pieces, cut where others meet it or a port is.
struct WireMoment {
  double pressure = 0.0;
  std::vector<Stream> pieces{};  ///< none of a mechanical line
};

/// A part at a moment, for its symbol.
struct Standing {
  std::vector<double> position{}, flow{}, input{};
  std::array<bool, max_modes> mode{};
  int modes = 0;

  /// Looks into this part: it must outlive the pose.
  Pose pose() const {
    return {position, flow, input, std::span(mode.data(), static_cast<std::size_t>(modes))};
  }
};

/// A drawing's circuit at one moment of its run.
struct DrawnMoment {
  double time = 0.0;
  std::string step{};
  std::vector<Standing> parts{};    ///< in the plan's order
  std::vector<WireMoment> wires{};  ///< in the schematic's order
  std::vector<WireMoment> tanks{};  ///< the leads of the reservoir's marks, in the schematic's order
  double greatest_flow = 0.0;       ///< of all its pieces, without sign
};

/// What runs through every piece of every line. In a piece flows what the ports on its one side take in, or
/// what those on the other give; where the line itself swells in that moment the two differ, and it is their
/// mean.
DrawnMoment drawn_moment(const Schematic& schematic, const Circuit& circuit, const Moment& moment);

/// The highest pressure of a moment's oil, Pa; never below 0.
double highest_pressure(const Moment& moment);

}  // namespace poise::draw
