// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <vector>

#include "circuit/circuit.hpp"

namespace poise {

/// All oil of a circuit and the steel around it as one warm body: C·dT/dt = P − U·(T − T_surroundings).
struct HeatBalance {
  double capacity = 0.0;      ///< C, J/K
  double conductance = 0.0;   ///< U, W/K
  double surroundings = 0.0;  ///< K, the mean that the conductances see

  double loss(double temperature) const { return conductance * (temperature - surroundings); }
};

/// The balance of a circuit's parts and oil. `without_path` is what its surroundings are called where no part
/// gives heat off, K.
HeatBalance heat_balance_of(const Circuit& circuit, double without_path);

/// A moment of the warm-up: s, K.
struct WarmUpPoint {
  double time = 0.0, temperature = 0.0;
};

/// The course of the temperature over five time constants C/U (five hours where nothing gives heat off), from
/// `start`, with the heat put in at each temperature, W; classical Runge–Kutta in steps of a hundredth of a
/// time constant.
std::vector<WarmUpPoint> course_of(const HeatBalance& balance, double start,
                                   const std::function<double(double)>& heat);

}  // namespace poise
