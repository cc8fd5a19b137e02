// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>

namespace poise {

/// How a part stands at a moment, for its drawing. Every span may be empty: then the part is drawn at rest.
struct Pose {
  std::span<const double> position;  ///< of each motion port, m from retracted
  std::span<const double> flow;      ///< of each oil port, m3/s into the part
  std::span<const double> input;     ///< of each input, SI; of words the index, between two while it shifts
  std::span<const bool> mode;

  /// Flow from which oil is drawn as passing, m3/s: 0.01 L/min; less is leakage.
  static constexpr double least_flow = 0.01e-3 / 60.0;

  /// Whether oil runs into the part at a port.
  bool enters(std::size_t port) const { return port < flow.size() && flow[port] > least_flow; }
  /// Whether oil runs in or out at a port.
  bool runs(std::size_t port) const { return port < flow.size() && std::abs(flow[port]) > least_flow; }
  /// Where a body stands in its stroke, 0…1.
  double share(std::size_t port, double stroke, double at_rest) const {
    return port < position.size() && stroke > 0.0 ? std::clamp(position[port] / stroke, 0.0, 1.0) : at_rest;
  }
  double input_or(std::size_t i, double at_rest) const { return i < input.size() ? input[i] : at_rest; }
  bool mode_or(std::size_t i, bool at_rest) const { return i < mode.size() ? mode[i] : at_rest; }
};

}  // namespace poise
