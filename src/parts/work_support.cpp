// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/work_support.hpp"

namespace poise {

double WorkSupport::locks_at(const Values& v) {
  const auto points = v.points("capacity_curve");
  if (points.empty()) return v["lock_pressure"];
  // Where the line through the first two points meets zero; a curve that begins at zero says it itself.
  const double slope = (points[1].y - points[0].y) / (points[1].x - points[0].x);
  return std::max(points[0].x - points[0].y / slope, 0.0);
}

MonotoneCurve WorkSupport::capacity_from(const Values& v) {
  const auto given = v.points("capacity_curve");
  if (given.empty()) return {};
  Points points(given.begin(), given.end());
  const double lock = locks_at(v);
  if (lock < points.front().x) points.insert(points.begin(), {lock, 0.0});
  return MonotoneCurve(points);
}

std::vector<CurveFit> WorkSupport::curves(const Values& v, const Oil&) {
  const auto given = v.points("capacity_curve");
  if (given.empty()) return {};
  const MonotoneCurve curve = capacity_from(v);
  CurveFit fit{"capacity_curve", {}};
  for (const CurvePoint& p : given) fit.rows.push_back({p.x, p.y, curve.look(p.x).value});
  return {fit};
}

std::vector<Mismatch> WorkSupport::check(const Values& v) {
  std::vector<Mismatch> found;
  if (v.given("capacity_curve")) {
    const auto points = v.points("capacity_curve");
    for (std::size_t i = 1; i < points.size(); ++i) {
      if (points[i - 1].y >= 0.0 && points[i].y > points[i - 1].y) continue;
      found.push_back({"capacity_curve", "the capacity must grow from point to point with the pressure"});
      break;
    }
  } else if (v["capacity_pressure"] <= v["lock_pressure"]) {
    found.push_back(
        {"capacity_pressure", "the capacity is stated at a pressure at which the plunger is not yet held"});
  }
  if (v["gap"] >= v["stroke"]) {
    found.push_back(
        {"gap", "the plunger does not reach the workpiece within its stroke; the gap must be smaller"});
  }
  return found;
}

}  // namespace poise
