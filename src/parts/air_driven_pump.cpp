// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/air_driven_pump.hpp"

namespace poise {

MonotoneCurve AirDrivenPump::curve_of(const Values& v) {
  const double stall = v["ratio"] * v["stated_air_pressure"];
  const auto given = v.points("delivery_curve");
  if (given.empty()) return MonotoneCurve(std::array{CurvePoint{0.0, v["flow"]}, CurvePoint{stall, 0.0}});
  Points points(given.begin(), given.end());
  if (points.back().y > 0.0 && points.back().x < stall) points.push_back({stall, 0.0});
  return MonotoneCurve(points);
}

std::vector<Mismatch> AirDrivenPump::check(const Values& v) {
  const auto points = v.points("delivery_curve");
  if (points.empty()) return {};
  if (v.given("flow"))
    return {{"delivery_curve", "flow and delivery_curve are both given; state one of them"}};
  const double stall = v["ratio"] * v["stated_air_pressure"];
  for (const CurvePoint& p : points) {
    if (p.y > 0.0 && p.x >= stall) {
      return {{"delivery_curve",
               "it shows flow at or above ratio times the stated air pressure, where the pump stands "
               "still"}};
    }
  }
  return pumps::check_curve(v);
}

}  // namespace poise
