// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/line.hpp"

#include <fmt/format.h>

#include <cmath>

#include "parts/erase.hpp"

namespace poise {
namespace {

template <class Line>
const Kind* built(const Values& v) {
  static const Kind with_inertia = kind_of<WithInertia<Line>>();
  return v.word("inertia") == 1 ? &with_inertia : nullptr;
}

/// Least squares through zero: E = Σ p·V/Σ p².
double fitted_expansion(std::span<const CurvePoint> points) {
  double pv = 0.0, p2 = 0.0;
  for (const CurvePoint& point : points) {
    pv += point.x * point.y;
    p2 += point.x * point.x;
  }
  return pv / p2;
}

}  // namespace

std::vector<Mismatch> whole_pieces(const Values& v) {
  const double pieces = v["segments"];
  if (pieces == std::round(pieces)) return {};
  return {{"segments", fmt::format("a line is worked out in whole pieces; {:.0f} is the nearest", pieces)}};
}

double Hose::swelling(const Values& v) {
  const auto points = v.points("expansion_curve");
  return v["softening"] * (points.empty() ? v["expansion"] : fitted_expansion(points));
}

std::vector<CurveFit> Hose::curves(const Values& v, const Oil&) {
  const auto points = v.points("expansion_curve");
  if (points.empty()) return {};
  const double expansion = fitted_expansion(points);
  CurveFit fit{"expansion_curve", {}};
  for (const CurvePoint& p : points) fit.rows.push_back({p.x, p.y, expansion * p.x});
  return {fit};
}

const Kind* Hose::as_built(const Values& v) { return built<Hose>(v); }
const Kind* Tube::as_built(const Values& v) { return built<Tube>(v); }

}  // namespace poise
