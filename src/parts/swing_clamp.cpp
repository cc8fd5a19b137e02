// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/swing_clamp.hpp"

namespace poise {
namespace {

/// F = F_0/(1 + k·L), as the lever of an arm on a guided rod suggests: 1/F is a straight line over L, fitted
/// by least squares with the weights F² that make all forces count by their relative error.
struct ArmTable {
  double force_at_zero, per_length;

  explicit ArmTable(std::span<const CurvePoint> points) {
    double w = 0.0, wl = 0.0, wll = 0.0, wf = 0.0, wlf = 0.0;
    for (const CurvePoint& p : points) {
      const double weight = p.y * p.y, inverse = 1.0 / p.y;
      w += weight;
      wl += weight * p.x;
      wll += weight * p.x * p.x;
      wf += weight * inverse;
      wlf += weight * p.x * inverse;
    }
    const double slope = (w * wlf - wl * wf) / (w * wll - wl * wl), base = (wf - slope * wl) / w;
    force_at_zero = 1.0 / base;
    per_length = slope / base;
  }
  double share(double length) const { return 1.0 / (1.0 + per_length * length); }
};

void check_arm(const Values& v, std::vector<Mismatch>& found) {
  const auto points = v.points("arm_curve");
  if (points.empty()) {
    if (v.given("arm_length")) {
      found.push_back({"arm_length", "an arm's length says nothing without arm_curve; or state arm_factor"});
    }
    return;
  }
  if (!v.given("arm_length")) {
    found.push_back(
        {"arm_length",
         "the length of the arm is missing, for which arm_curve is to be read; state arm_length"});
  }
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (points[i].y > 0.0 && (i == 0 || points[i].y <= points[i - 1].y)) continue;
    found.push_back(
        {"arm_curve", "the force must be above zero and must not grow with the length of the arm"});
    return;
  }
}

}  // namespace

double SwingClamp::derating(const Values& v) {
  const auto points = v.points("arm_curve");
  return points.empty() || !v.given("arm_length") ? 1.0 : ArmTable(points).share(v["arm_length"]);
}

std::vector<CurveFit> SwingClamp::curves(const Values& v, const Oil&) {
  const auto points = v.points("arm_curve");
  if (points.empty()) return {};
  const ArmTable table(points);
  CurveFit fit{"arm_curve", {}};
  for (const CurvePoint& p : points) fit.rows.push_back({p.x, p.y, table.force_at_zero * table.share(p.x)});
  return {fit};
}

std::vector<Mismatch> SwingClamp::check(const Values& v) {
  std::vector<Mismatch> found;
  if (v.word("return") == 1 && !v.given("unclamp_area")) {
    found.push_back({"unclamp_area", "the arm comes back by oil, so the area that lifts it is needed"});
  }
  if (v.given("gap") && v["gap"] >= v["clamp_stroke"]) {
    found.push_back(
        {"gap",
         "the arm reaches the end of its stroke before it meets the workpiece; the gap must be smaller"});
  }
  check_arm(v, found);
  return found;
}

}  // namespace poise
