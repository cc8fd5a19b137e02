// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/laws.hpp"

#include <algorithm>

namespace poise {

Restriction Restriction::fitted(std::span<const CurvePoint> points) {
  constexpr double least_laminar = 0.05;  // of the greatest flow: Q_t
  double q2 = 0.0, q3 = 0.0, q4 = 0.0, pq = 0.0, pq2 = 0.0, most = 0.0;
  for (const CurvePoint& point : points) {
    const double q = point.x, p = point.y;
    q2 += q * q;
    q3 += q * q * q;
    q4 += q * q * q * q;
    pq += p * q;
    pq2 += p * q * q;
    most = std::max(most, q);
  }
  const double determinant = q2 * q4 - q3 * q3;
  Restriction best{(pq2 * q2 - pq * q3) / determinant, (pq * q4 - pq2 * q3) / determinant};
  // Of one flow only, or at a bound: the other coefficient follows.
  if (!(determinant > 1e-9 * q2 * q4) || best.b < least_laminar * best.a * most) {
    const double s = least_laminar * most;
    best.a = (pq2 + s * pq) / (q4 + 2.0 * s * q3 + s * s * q2);
    best.b = s * best.a;
  } else if (best.a <= 0.0) {
    best.b = pq / q2;
    best.a = 1e-3 * best.b / most;
  }
  return best;
}

double contact_heat(double depth, double approach, double stiffness, double damping) {
  if (!(depth > 0.0)) return 0.0;
  return (contact(depth, approach, stiffness, damping) - stiffness * depth) * approach;
}

}  // namespace poise
