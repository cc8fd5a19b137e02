// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/monotone_curve.hpp"

#include <algorithm>
#include <cmath>

namespace poise {
namespace {

double secant(std::span<const CurvePoint> p, std::size_t i) {
  return (p[i + 1].y - p[i].y) / (p[i + 1].x - p[i].x);
}

/// Slope at an inner point; none where the curve turns there.
double inner(std::span<const CurvePoint> p, std::size_t i) {
  const double before = secant(p, i - 1), after = secant(p, i);
  if (before * after <= 0.0) return 0.0;
  const double left = p[i].x - p[i - 1].x, right = p[i + 1].x - p[i].x;
  const double heavy = 2.0 * right + left, light = right + 2.0 * left;
  return (heavy + light) / (heavy / before + light / after);
}

/// Slope at an end: the parabola through three points, held between level and three times the secant.
double at_end(double near_width, double far_width, double near, double far) {
  const double slope = ((2.0 * near_width + far_width) * near - near_width * far) / (near_width + far_width);
  if (slope * near <= 0.0) return 0.0;
  return near * far <= 0.0 && std::abs(slope) > 3.0 * std::abs(near) ? 3.0 * near : slope;
}

}  // namespace

MonotoneCurve::MonotoneCurve(std::span<const CurvePoint> points, Beyond beyond)
    : points_(points.begin(), points.end()), slope_(points.size(), 0.0), beyond_(beyond) {
  const std::size_t n = points_.size();
  if (n == 2) slope_.assign(2, secant(points_, 0));
  if (n < 3) return;
  for (std::size_t i = 1; i + 1 < n; ++i) slope_[i] = inner(points_, i);
  const auto width = [&](std::size_t i) { return points_[i + 1].x - points_[i].x; };
  slope_[0] = at_end(width(0), width(1), secant(points_, 0), secant(points_, 1));
  slope_[n - 1] = at_end(width(n - 2), width(n - 3), secant(points_, n - 2), secant(points_, n - 3));
}

MonotoneCurve::Value MonotoneCurve::beyond(std::size_t end, double x) const {
  const double slope = beyond_ == Beyond::level ? 0.0 : slope_[end];
  return {points_[end].y + slope * (x - points_[end].x), slope};
}

MonotoneCurve::Value MonotoneCurve::look(double x) const {
  if (x <= points_.front().x) return beyond(0, x);
  if (x >= points_.back().x) return beyond(points_.size() - 1, x);
  const auto after = std::ranges::upper_bound(points_, x, {}, &CurvePoint::x);
  const auto i = static_cast<std::size_t>(after - points_.begin()) - 1;
  const double width = points_[i + 1].x - points_[i].x, u = (x - points_[i].x) / width;
  const double rise = points_[i + 1].y - points_[i].y;
  const double a = slope_[i] * width - rise, b = rise - slope_[i + 1] * width;
  const double bulge = (1.0 - u) * a + u * b;  // Hermite's cubic about the straight line
  return {points_[i].y + u * rise + u * (1.0 - u) * bulge,
          (rise + (1.0 - 2.0 * u) * bulge + u * (1.0 - u) * (b - a)) / width};
}

CurveFit MonotoneCurve::fit(std::string_view parameter) const {
  CurveFit fit{parameter, {}};
  for (const CurvePoint& p : points_) fit.rows.push_back({p.x, p.y, look(p.x).value});
  return fit;
}

}  // namespace poise
