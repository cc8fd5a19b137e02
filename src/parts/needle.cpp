// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/needle.hpp"

namespace poise {
namespace {

constexpr double density_at_measurement = 870.0;  // kg/m3: mineral oil, common practice

/// The needle fully open, and its opening at each point, from flows measured at one pressure drop.
struct Measured {
  Orifice orifice;
  Points opening;  ///< share of the full area over the turns

  Measured(const Values& v, const Oil& oil) {
    const auto points = v.points("flow_curve");
    const double drop = v["curve_drop"], most = points.back().y;
    orifice.viscosity = v.given("curve_viscosity") ? v["curve_viscosity"] : oil.viscosity();
    // A of Δp = ρ/(2·Cd²·A²)·(Q² + Q_t(A)·Q): the laminar term grows with √A only, so this settles at once.
    orifice.area = most / orifice.discharge / std::sqrt(2.0 * drop / density_at_measurement);
    for (int i = 0; i < 60; ++i) {
      const double terms = most * most + orifice.laminar_flow() * most;
      orifice.area = std::sqrt(terms * density_at_measurement / (2.0 * drop)) / orifice.discharge;
    }
    if (points.front().x > 0.0) opening.push_back({0.0, 0.0});
    for (const CurvePoint& p : points) opening.push_back({p.x, opening_at(p.y, drop)});
  }

  double opening_at(double flow, double drop) const {
    const double a = density_at_measurement / (2.0 * std::pow(orifice.discharge * orifice.area, 2));
    return std::sqrt(a * (flow * flow + orifice.laminar_flow() * flow) / drop);
  }
};

}  // namespace

NeedleArea::NeedleArea(const Values& v, const Oil& oil) : full(v["full_turns"]), factor(v["area_factor"]) {
  if (v.given("flow_curve")) {
    const Measured measured(v, oil);
    orifice.area = measured.orifice.area;
    opening = MonotoneCurve(measured.opening, MonotoneCurve::Beyond::level);
    full = measured.opening.back().x;
  } else {
    orifice.area = circle(v["bore"]);
  }
  orifice.viscosity = oil.viscosity_law();
}

std::vector<Mismatch> NeedleArea::check(const Values& v) {
  const auto points = v.points("flow_curve");
  std::vector<Mismatch> found;
  if (!points.empty() && !v.given("curve_drop")) {
    found.push_back({"curve_drop", "the pressure drop at which flow_curve was measured is missing"});
  }
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (points[i].y > points[i - 1].y) continue;
    found.push_back({"flow_curve", "the flow must grow from point to point as the needle is opened"});
    break;
  }
  const double full = points.empty() ? v["full_turns"] : points.back().x;
  if (v["turns"] > full) {
    found.push_back({"turns", points.empty()
                                  ? "more turns than the valve has; full_turns says how many that is"
                                  : "more turns than the last point of flow_curve"});
  }
  return found;
}

std::vector<CurveFit> NeedleArea::fit(const Values& v, const Oil& oil) {
  if (!v.given("flow_curve")) return {};
  const Measured measured(v, oil);
  const MonotoneCurve opening(measured.opening);
  CurveFit fit{"flow_curve", {}};
  const OilHere<double> from{v["curve_drop"], density_at_measurement}, to{0.0, density_at_measurement};
  for (const CurvePoint& p : v.points("flow_curve")) {
    fit.rows.push_back({p.x, p.y, measured.orifice.flow(from, to, opening.look(p.x).value)});
  }
  return {fit};
}

}  // namespace poise
