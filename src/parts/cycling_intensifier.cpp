// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/cycling_intensifier.hpp"

#include <algorithm>

namespace poise {

MonotoneCurve CyclingIntensifier::curve_of(const Values& v) {
  const auto given = v.points("delivery_curve");
  if (given.empty()) return {};
  const double standstill = v["ratio"] * v["curve_pressure"];
  Points points;
  for (const CurvePoint& p : given) points.push_back({standstill - p.x, p.y});
  std::ranges::reverse(points);
  if (points.front().x > 0.0) points.insert(points.begin(), {0.0, 0.0});
  return MonotoneCurve(points, MonotoneCurve::Beyond::level);
}

std::vector<Mismatch> CyclingIntensifier::check(const Values& v) {
  const auto points = v.points("delivery_curve");
  if (points.empty()) return common::check_opens_below_drop(v);
  if (v.given("high_flow")) {
    return {{"delivery_curve", "high_flow and delivery_curve are both given; state one of them"}};
  }
  if (!v.given("curve_pressure")) {
    return {{"curve_pressure", "the delivery curve holds for one pressure at A; state it"}};
  }
  for (std::size_t i = 0; i < points.size(); ++i) {
    const bool past_standstill = points[i].x > v["ratio"] * v["curve_pressure"];
    const bool at_standstill = points[i].x == v["ratio"] * v["curve_pressure"];
    if (past_standstill || (at_standstill && points[i].y > 0.0)) {
      return {{"delivery_curve",
               "it shows flow at or above ratio times the pressure at A, where it stands still"}};
    }
    if (points[i].y < 0.0 || (i > 0 && points[i].y > points[i - 1].y)) {
      return {{"delivery_curve", "delivery falls or stays as the pressure at B rises, and is not negative"}};
    }
  }
  return common::check_opens_below_drop(v);
}

std::vector<CurveFit> CyclingIntensifier::curves(const Values& v, const Oil& oil) {
  auto all = common::drop_fit(v, oil);
  if (!v.given("delivery_curve")) return all;
  const MonotoneCurve curve = curve_of(v);
  CurveFit fit{"delivery_curve", {}};
  for (const CurvePoint& p : v.points("delivery_curve")) {
    fit.rows.push_back({p.x, p.y, curve.look(v["ratio"] * v["curve_pressure"] - p.x).value});
  }
  all.push_back(fit);
  return all;
}

}  // namespace poise
