// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/relief.hpp"

#include <cmath>

namespace poise {
namespace {

/// Pressure at `reading`: the valve passes this flow there.
double flow_at(double pressure, double cracking, double override_share, double rated_flow) {
  const double band = override_share * cracking;
  const double opening = share_of_band(pressure - cracking, band);
  return Restriction::through(rated_flow, cracking + band).flow(pressure, opening);
}

/// Cracking pressure of a valve that reads `setting` with `setting_flow` over it, by halving.
double cracking_of(const Values& v) {
  const double reading = v["setting"];
  if (!v.given("setting_flow")) return reading;
  // The more the valve must pass at the reading, the further below it the valve cracks.
  double low = reading / (1.0 + 2.0 * v["override"]), high = reading;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (flow_at(reading, middle, v["override"], v["rated_flow"]) > v["setting_flow"] ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

double misfit(const ReliefOpening& valve, std::span<const CurvePoint> points) {
  double sum = 0.0;
  for (const CurvePoint& p : points) sum += std::pow(valve.pressure(p.x) - p.y, 2);
  return sum;
}

/// Cracking pressure and band of the valve that is fully open at `full_flow` and meets the points best: least
/// squares in the pressures by Gauss and Newton, steps halved until they help.
ReliefOpening fitted(std::span<const CurvePoint> points, double full_flow) {
  constexpr int rounds = 40;
  constexpr double least_band = 1e-3;  // of the cracking pressure
  const double top = points.back().y;
  double cracking = std::min(points.front().y, 0.999 * top), band = top - cracking;
  double best = misfit({cracking, band, full_flow}, points);
  for (int round = 0; round < rounds; ++round) {
    const double h = 1e-5 * top;
    double cc = 0.0, cb = 0.0, bb = 0.0, rc = 0.0, rb = 0.0;
    for (const CurvePoint& p : points) {
      const double here = ReliefOpening(cracking, band, full_flow).pressure(p.x);
      const double by_cracking = (ReliefOpening(cracking + h, band, full_flow).pressure(p.x) - here) / h;
      const double by_band = (ReliefOpening(cracking, band + h, full_flow).pressure(p.x) - here) / h;
      cc += by_cracking * by_cracking;
      cb += by_cracking * by_band;
      bb += by_band * by_band;
      rc += by_cracking * (p.y - here);
      rb += by_band * (p.y - here);
    }
    const double determinant = cc * bb - cb * cb;
    if (!(determinant > 0.0)) break;
    const double step_c = (rc * bb - rb * cb) / determinant, step_b = (rb * cc - rc * cb) / determinant;
    double share = 1.0;
    for (; share > 1e-3; share *= 0.5) {
      const double c = std::max(cracking + share * step_c, 0.01 * top);
      const double b = std::max(band + share * step_b, least_band * c);
      const double now = misfit({c, b, full_flow}, points);
      if (now >= best) continue;
      cracking = c;
      band = b;
      best = now;
      break;
    }
    if (share <= 1e-3) break;
  }
  return {cracking, band, full_flow};
}

/// Where the points tell of a flow from which on it is fully open, that too: beyond it the pressure rises as
/// over a fixed restriction.
ReliefOpening fitted(std::span<const CurvePoint> points) {
  constexpr double enough = 1e-4;  // an earlier end of the band must be worth its while
  const double most = points.back().x;
  ReliefOpening best = fitted(points, most);
  double least = misfit(best, points);
  for (double share : {0.9, 0.8, 0.7, 0.6, 0.5, 0.4}) {
    const ReliefOpening other = fitted(points, share * most);
    const double off = misfit(other, points);
    if (off >= (1.0 - enough) * least) continue;
    least = off;
    best = other;
  }
  return best;
}

ReliefOpening opening_of(const Values& v) {
  const auto points = v.points("override_curve");
  if (!points.empty()) return fitted(points);
  const double cracking = cracking_of(v);
  return {cracking, v["override"] * cracking, v["rated_flow"]};
}

}  // namespace

ReliefOpening::ReliefOpening(double cracks_at, double over, double flow)
    : cracking(cracks_at), band(over), open(Restriction::through(flow, cracks_at + over)) {}

ReliefOpening::ReliefOpening(const Values& v) : ReliefOpening(opening_of(v)) {}

double ReliefOpening::pressure(double flow) const {
  const double drop = open.drop(flow), full = cracking + band;
  if (drop >= full) return drop;
  // (p − cracking)²·p = band²·drop has one root in the band; the left side is convex there: Newton from
  // above.
  double p = full;
  for (int i = 0; i < 60; ++i) {
    const double e = p - cracking;
    const double value = e * e * p - band * band * drop, slope = 2.0 * e * p + e * e;
    if (!(slope > 0.0)) break;
    const double next = std::max(p - value / slope, cracking);
    if (std::abs(next - p) <= 1e-12 * full) return next;
    p = next;
  }
  return p;
}

namespace relief {

std::vector<Mismatch> check(const Values& v) {
  const auto points = v.points("override_curve");
  if (!points.empty()) {
    for (std::string_view other : {"setting", "setting_flow", "rated_flow"}) {
      if (v.given(other)) return {{other, "override_curve says this already; state one of them"}};
    }
    for (std::size_t i = 1; i < points.size(); ++i) {
      if (!(points[i].y > points[i - 1].y))
        return {
            {"override_curve", "the pressure over a relief valve rises with the flow; these points fall"}};
    }
    if (!(points.front().y > 0.0)) return {{"override_curve", "the first point has no pressure"}};
    return {};
  }
  if (v.given("setting_flow") && v["setting_flow"] > v["rated_flow"]) {
    return {{"setting_flow",
             "the valve was set at more than its rated flow; it cannot be relied on to limit the pressure "
             "there"}};
  }
  return {};
}

std::vector<CurveFit> fit(const Values& v) {
  const auto points = v.points("override_curve");
  if (points.empty()) return {};
  const ReliefOpening valve(v);
  CurveFit fit{"override_curve", {}};
  for (const CurvePoint& p : points) fit.rows.push_back({p.x, p.y, valve.pressure(p.x)});
  return {fit};
}

}  // namespace relief
}  // namespace poise
