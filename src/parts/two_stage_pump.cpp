// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/two_stage_pump.hpp"

namespace poise {

std::vector<Mismatch> TwoStagePump::check(const Values& v) {
  if (v.given("delivery_curve")) {
    if (v.given("low_pressure_flow") || v.given("high_pressure_flow")) {
      return {{"delivery_curve", "the curve says how much the pump delivers; leave the two flows out"}};
    }
    return pumps::check_curve(v);
  }
  if (v["low_pressure_flow"] <= v["high_pressure_flow"]) {
    return {{"low_pressure_flow",
             "both stages together deliver more than the high-pressure stage alone; are the two "
             "flows the wrong way round?"}};
  }
  if (v["unloading_pressure"] * (1.0 + v["unloading_band"]) >= v["rated_pressure"]) {
    return {
        {"unloading_pressure", "the low-pressure stage would unload only above the pump's rated pressure"}};
  }
  return {};
}

}  // namespace poise
