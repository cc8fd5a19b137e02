// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/electric_motor.hpp"

namespace poise {

std::vector<Mismatch> ElectricMotor::check(const Values& v) {
  if (v["rated_speed"] >= v["synchronous_speed"]) {
    return {{"rated_speed",
             "a loaded motor turns a little slower than its field; rated_speed must lie below "
             "synchronous_speed"}};
  }
  const double slip = 1.0 - v["rated_speed"] / v["synchronous_speed"], ratio = v["breakdown_ratio"];
  if (slip * (ratio + std::sqrt(ratio * ratio - 1.0)) >= 1.0) {
    return {{"rated_speed",
             "so far below the synchronous speed the motor would have its highest torque at rest; is "
             "one of the two speeds mistyped?"}};
  }
  return {};
}

}  // namespace poise
