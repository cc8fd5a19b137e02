// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <cmath>

#include "parts/accumulator.hpp"

namespace poise::rules {

/// Share of its gas space that an accumulator has filled with oil at a pressure, Pa; 0 up to its precharge.
inline double filled_share(const Cushion& gas, double pressure) {
  const double absolute = pressure + si::atmosphere;
  if (absolute <= gas.absolute) return 0.0;
  return 1.0 - std::pow(gas.absolute / absolute, 1.0 / gas.exponent);
}

}  // namespace poise::rules
