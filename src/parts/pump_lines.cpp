// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/pump_lines.hpp"

namespace poise::pumps {

std::vector<Mismatch> check_curve(const Values& v) {
  const auto points = v.points("delivery_curve");
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (points[i].y < 0.0) return {{"delivery_curve", "a pump's delivery is not negative"}};
    if (i > 0 && points[i].y > points[i - 1].y) {
      return {{"delivery_curve",
               "a pump does not deliver more at a higher pressure; the flows must fall or stay"}};
    }
  }
  return {};
}

std::vector<Mismatch> check_flow(const Values& v, bool with_curve) {
  const int ways = (v.given("flow") ? 1 : 0) + (v.given("displacement") ? 1 : 0);
  if (ways == 2) return {{"displacement", "flow and displacement are both given; state one of them"}};
  if (with_curve && v.given("delivery_curve")) {
    if (ways == 0) return check_curve(v);
    return {{"delivery_curve", "the curve says how much the pump delivers; leave flow and displacement out"}};
  }
  if (ways == 0) return {{"flow", "the pump's flow is missing; state flow, or displacement and speed"}};
  return {};
}

}  // namespace poise::pumps
