// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>

#include "parts/room.hpp"

namespace poise {

/// Laws that several rooms share. Flows are volume flows, m3/s, positive from the first port to the second.
using std::abs;
using std::sqrt;
using std::tanh;

template <class T>
T magnitude(const T& x) {
  return x < 0.0 ? -x : x;
}

/// Δp = b·Q + a·Q²: a restriction as a datasheet gives it. a and b hold for the oil they were measured in.
struct Restriction {
  double a = 0.0;  ///< Pa/(m3/s)²
  double b = 0.0;  ///< Pa/(m3/s)

  /// From one point of the pressure-drop curve; Q_t = share·Q_r is where the laminar and turbulent terms are
  /// equal.
  static Restriction through(double flow, double drop, double share = 0.1) {
    const double a = drop / (flow * flow * (1.0 + share));
    return {a, a * share * flow};
  }

  /// Least squares for a and b through points (flow, drop) of a datasheet's curve (ISO 4411); b is kept at no
  /// less than a·Q_max/20, so that the flow is laminar near rest.
  static Restriction fitted(std::span<const CurvePoint> points);

  double drop(double flow) const { return (b + a * std::abs(flow)) * flow; }

  /// Q for a pressure difference, at an opening x (0…1) that scales the area: a/x², b/x². Odd and smooth at
  /// Δp = 0.
  template <class P, class X>
  auto flow(const P& drop, const X& opening) const {
    const auto x2 = opening * opening;
    return 2.0 * drop * x2 / (b + sqrt(4.0 * a * magnitude(drop) * x2 + b * b));
  }
};

/// Mass flow of the oil that leaves on the upstream side: w = ρ(p_upstream)·Q, kg/s.
template <class T>
T mass_flow(const T& flow, const OilHere<T>& from, const OilHere<T>& to) {
  return flow * (flow > 0.0 ? from.density : to.density);
}

/// The viscosity at a pressure, as exact as the pressure's own slopes.
template <class T>
T viscosity_at(const T& pressure, const Viscosity& viscosity) {
  const Viscosity::Here here = viscosity.at(value_of(pressure));
  return with_slope(pressure, here.value, here.slope);
}

/// A sharp-edged opening: a = ρ/(2·Cd²·A²), Q_t = Re_t·ν·A/d_h with d_h of the round hole of the same area
/// (Merritt's transition, laminar below). ρ is that of the upstream side.
struct Orifice {
  double area = 0.0;  ///< fully open, m2
  double discharge = 0.62;
  double transition = 100.0;  ///< Re_t
  Viscosity viscosity = 0.0;  ///< that of the upstream side counts

  /// Q_t at p = 0.
  double laminar_flow() const { return laminar_flow(viscosity.at_zero()); }
  template <class T>
  T flow(const OilHere<T>& from, const OilHere<T>& to, const T& opening) const {
    const T drop = from.pressure - to.pressure;
    const T density = drop > 0.0 ? from.density : to.density;
    const T x2 = opening * opening;
    if (viscosity.constant()) [[likely]]
      return through(drop, density, x2, laminar_flow());
    return thickened(drop, density, x2, drop > 0.0 ? from.pressure : to.pressure);
  }

 private:
  template <class V>
  V laminar_flow(const V& here) const {
    return transition * here * area / std::sqrt(4.0 * area / std::numbers::pi);
  }
  template <class T, class Q>
  T through(const T& drop, const T& density, const T& x2, const Q& q_t) const {
    const T a = density * (1.0 / (2.0 * discharge * discharge * area * area));
    // The opening is of area: a/x² and Q_t unchanged, so b = a·Q_t/x².
    return 2.0 * drop * x2 / (a * q_t + sqrt(4.0 * a * magnitude(drop) * x2 + a * a * (q_t * q_t)));
  }
  // Kept apart so that the usual way stays short.
  template <class T>
  [[gnu::cold, gnu::noinline]] T thickened(const T& drop, const T& density, const T& x2,
                                           const T& upstream) const {
    return through(drop, density, x2, laminar_flow(viscosity_at(upstream, viscosity)));
  }
};

/// Share of a band that a pressure error has run through: clamp(e/band, 0, 1) with its two corners rounded
/// over one hundredth of the band, so that its slope has no jump; it is exactly 0 below −1 % and exactly 1
/// above 101 %.
template <class T>
T share_of_band(const T& error, double band) {
  constexpr double rounding = 0.01;
  const T e = error * (1.0 / band);
  if (e <= -rounding) return T(0.0);
  if (e < rounding) return (e + rounding) * (e + rounding) * (0.25 / rounding);
  if (e <= 1.0 - rounding) return e;
  if (e < 1.0 + rounding) return 1.0 - (1.0 + rounding - e) * (1.0 + rounding - e) * (0.25 / rounding);
  return T(1.0);
}

/// Rubbing of a seal and guide: F_c·tanh(v/v0) + c·v, N, against the motion.
template <class T, class F>
T rubbing(const F& dry_force, const T& speed, double creep_speed, double damping) {
  return dry_force * tanh(speed * (1.0 / creep_speed)) + damping * speed;
}

/// A stop or contact: pushes back by stiffness·depth + damping·speed of approach, never pulls; the damper
/// comes in over the first micrometre so that the force has no jump. `depth` > 0 is contact. Returns N, ≥ 0.
template <class T>
T contact(const T& depth, const T& approach, double stiffness, double damping) {
  if (!(depth > 0.0)) return T(0.0);
  const T share = depth < si::micrometre ? depth * (1.0 / si::micrometre) : T(1.0);
  return positive(T(stiffness * depth + damping * share * approach));
}

/// The part of a contact's force that the spring does not give back, as power, W.
double contact_heat(double depth, double approach, double stiffness, double damping);

/// The plain numbers of a motion.
template <class T>
MotionHere<double> values_of(const MotionHere<T>& body) {
  return {value_of(body.position), value_of(body.speed)};
}

/// Laminar leak Q = k·Δp where `flow` leaks at `drop`.
struct Leak {
  double k = 0.0;  ///< m3/(s·Pa)
  static Leak at(double flow, double drop) { return {drop > 0.0 ? flow / drop : 0.0}; }
  /// Past a piston or spool without a seal: k = π·D·gap³/(12·μ·L), the gap radial and even all round, μ
  /// dynamic, Pa·s. Source: Fox and McDonald, Introduction to Fluid Mechanics, 5th ed., Example 8.1.
  static Leak past(double diameter, double gap, double length, double dynamic_viscosity) {
    return {std::numbers::pi * diameter * gap * gap * gap / (12.0 * dynamic_viscosity * length)};
  }
  template <class T>
  T flow(const T& drop) const {
    return k * drop;
  }
};

/// Circle's area, m2.
inline double circle(double diameter) { return std::numbers::pi / 4.0 * diameter * diameter; }

}  // namespace poise
