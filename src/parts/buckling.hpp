// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <string_view>

#include "quantity/quantity.hpp"

namespace poise {

/// A bar under a push along its axis, SI.
struct Strut {
  double area = 0.0;        ///< of the cross-section, m2
  double inertia = 0.0;     ///< second moment of area about the weaker axis, m4
  double length = 0.0;      ///< between its ends, m
  double end_factor = 1.0;  ///< K: effective length over length
  double modulus = 0.0;     ///< Young's, Pa
  double yield = std::numeric_limits<double>::infinity();  ///< yield strength, Pa; infinite: Euler alone
  double effective_length() const { return end_factor * length; }
};

/// A round rod, with a hole along it or none: A = π/4·(d² − hole²), I = π/64·(d⁴ − hole⁴).
inline Strut round_strut(double diameter, double hole, double length, double end_factor, double modulus,
                         double yield) {
  const double d2 = diameter * diameter, h2 = hole * hole;
  return {.area = std::numbers::pi / 4.0 * (d2 - h2),
          .inertia = std::numbers::pi / 64.0 * (d2 * d2 - h2 * h2),
          .length = length,
          .end_factor = end_factor,
          .modulus = modulus,
          .yield = yield};
}

/// Young's modulus of steel, Pa (EN 1993-1-1, 3.2.6: 210 000 N/mm2).
inline constexpr double steel_modulus = 210e9;

/// Push at which an elastic strut bows out, N: π²·E·I/(K·L)², infinite at no length.
/// Source: L. Euler; e.g. Gere, Mechanics of Materials, ch. 11 (check values BK-01 to BK-06).
inline double euler_load(const Strut& s) {
  const double over_length = std::numbers::pi / s.effective_length();
  return over_length * over_length * s.modulus * s.inertia;
}

/// Push that a strut fails at, N, without any factor of safety: Euler's where it is slender, else J. B.
/// Johnson's parabola, which runs from yield at no length into Euler's curve at half the yield strength, with
/// the same slope:
///   slenderness λ = K·L/√(I/A), λ_c = π·√(2·E/yield);
///   λ ≥ λ_c: π²·E·I/(K·L)²; else A·yield·(1 − λ²/(2·λ_c²)).
/// Source: Budynas and Nisbett, Shigley's Mechanical Engineering Design, columns with central loading (from
/// memory).
inline double buckling_load(const Strut& s) {
  const double euler = euler_load(s), squash = s.area * s.yield;
  if (!(euler < 0.5 * squash)) return squash * (1.0 - 0.25 * squash / euler);
  return euler;
}

/// How a cylinder's two ends are held, and K of each.
struct Ends {
  static constexpr std::array<std::string_view, 5> words{"fixed_free", "pinned_pinned", "fixed_guided",
                                                         "fixed_pinned", "fixed_fixed"};
  /// Theoretical K: one end fixed and the other free 2; both pinned 1; one fixed, the other kept upright but
  /// free to move sideways 1; one fixed, one pinned 0.699; both fixed 0.5 (e.g. Hibbeler, Mechanics of
  /// Materials, ch. 13).
  static constexpr std::array<double, 5> factors{2.0, 1.0, 1.0, 0.699, 0.5};
};

}  // namespace poise
