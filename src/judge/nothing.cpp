// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/nothing.hpp"

#include <cmath>

namespace poise {

double creep_of(Quantity quantity) {
  switch (quantity) {
    case Quantity::pressure:
      return 10.0;
    case Quantity::flow:
      return 0.1 * si::cm3_per_minute;
    case Quantity::length:
      return 1e-7;
    case Quantity::angle:
    case Quantity::turns:
      return 1e-5;
    case Quantity::speed:
    case Quantity::rate_of_turning:
      return 1e-6;
    case Quantity::force:
    case Quantity::torque:
      return 0.01;
    case Quantity::power:
      return 0.05;
    case Quantity::energy:
      return 0.01;
    default:
      return 0.0;
  }
}

bool is_nothing(double value, Quantity quantity) { return std::abs(value) <= creep_of(quantity); }

}  // namespace poise
