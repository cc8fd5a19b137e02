// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <cmath>
#include <vector>

namespace poise::by_hand {

inline constexpr double atmosphere = 101325.0;

/// ISO VG 46 at 40 °C: 870 kg/m3 at 15 °C, K0 = 1.6 GPa, slope 9, 0.5 % air with exponent 1.4.
inline constexpr double density_0 = 870.0 * (1.0 - 6.5e-4 * 25.0), viscosity = 46e-6;
inline constexpr double modulus = 1.6e9, modulus_slope = 9.0, air = 0.005, air_exponent = 1.4;

/// Oil at u = ln((p + p_atm)/p_atm).
struct OilPoint {
  double absolute, pressure, density;
  double squeeze, squeeze_slope;  ///< c = (dρ/dp)/ρ and dc/dp
};
inline OilPoint oil_at(double u) {
  OilPoint o;
  o.pressure = atmosphere * std::expm1(u);
  o.absolute = o.pressure + atmosphere;
  const double k = modulus + modulus_slope * o.pressure;
  const double liquid = (1.0 - air) * std::exp(std::log(modulus / k) / modulus_slope);
  const double bubbles = air * std::exp(-u / air_exponent);
  const double v = 1.0 / (liquid + bubbles);
  const double soft = bubbles / (air_exponent * o.absolute);
  o.density = density_0 * v;
  o.squeeze = (liquid / k + soft) * v;
  o.squeeze_slope =
      o.squeeze * o.squeeze -
      (liquid * (1.0 + modulus_slope) / (k * k) + soft * (1.0 + 1.0 / air_exponent) / o.absolute) * v;
  return o;
}

/// A volume flow with its slopes along the pressure difference, the opening and the upstream density.
struct Flow {
  double q = 0.0, by_drop = 0.0, by_opening = 0.0, by_density = 0.0;
};

/// Restriction through one point of the datasheet, laminar share 10 %: drop = (a·Q² + b·Q)/x².
struct Valve {
  double a, b;
  constexpr Valve(double flow, double drop) : a(drop / (1.1 * flow * flow)), b(0.1 * flow * a) {}
  Flow flow(double drop, double x) const {
    const double root = std::sqrt(b * b + 4.0 * a * std::abs(drop) * x * x);
    return {2.0 * drop * x * x / (b + root), x * x / root, 2.0 * drop * x / root};
  }
};

/// Needle of V6: 1 mm bore, two of eight turns, Cd = 0.62, laminar below Re = 100.
inline Flow needle_flow(double drop, double density) {
  constexpr double area = 0.25e-6 * 3.14159265358979, x2 = 0.25 * 0.25;
  constexpr double laminar = 100.0 * viscosity * area / 1e-3;
  const double a = density / (2.0 * 0.62 * 0.62 * area * area);
  const double q = 2.0 * std::abs(drop) * x2 /
                   (a * laminar + std::sqrt(a * (4.0 * std::abs(drop) * x2 + a * laminar * laminar)));
  const double slope = 1.0 / (2.0 * q + laminar);
  const double sign = drop < 0.0 ? -1.0 : 1.0;
  return {sign * q, x2 / a * slope, 0.0, -sign * q * (q + laminar) * slope / density};
}

/// Share of a band that an error has run through, its corners rounded over 1 % of the band.
struct Share {
  double value, slope;
};
inline Share share(double error, double band) {
  const double e = error / band;
  if (e <= -0.01) return {0.0, 0.0};
  if (e >= 1.01) return {1.0, 0.0};
  if (e < 0.01) return {25.0 * (e + 0.01) * (e + 0.01), 50.0 * (e + 0.01) / band};
  if (e > 0.99) return {1.0 - 25.0 * (1.01 - e) * (1.01 - e), 50.0 * (1.01 - e) / band};
  return {e, 1.0 / band};
}

/// A one-sided stop at a depth, approached with a speed.
struct Push {
  double force = 0.0, by_depth = 0.0, by_speed = 0.0;
};
inline Push stop(double depth, double approach, double stiffness, double damping) {
  if (depth <= 0.0) return {};
  const bool near = depth < 1e-6;
  const double share = near ? depth * 1e6 : 1.0;
  const double force = stiffness * depth + damping * share * approach;
  if (force <= 0.0) return {};
  return {force, stiffness + (near ? damping * approach * 1e6 : 0.0), damping * share};
}

/// Reynolds number for a drop S = f·Re²: laminar up to Re = 1000, above it read off Churchill's curve turned
/// round, on an even grid in ln S.
class Turbulence {
 public:
  explicit Turbulence(double relative_roughness);
  struct Reynolds {
    double value, slope;
  };
  Reynolds reynolds(double s) const {
    if (s <= 64000.0) return {s / 64.0, 1.0 / 64.0};
    const double at = (std::log(s) - first_) / step_;
    const int i = std::min(static_cast<int>(at), static_cast<int>(ln_re_.size()) - 2);
    const double t = at - i, rise = ln_re_[i + 1] - ln_re_[i], d0 = slope_[i] * step_,
                 d1 = slope_[i + 1] * step_;
    const double c2 = 3.0 * rise - 2.0 * d0 - d1, c3 = d0 + d1 - 2.0 * rise;
    const double re = std::exp(ln_re_[i] + t * (d0 + t * (c2 + t * c3)));
    return {re, re / s * (d0 + t * (2.0 * c2 + 3.0 * t * c3)) / step_};
  }

 private:
  double first_, step_;
  std::vector<double> ln_re_, slope_;  // slope d ln Re / d ln S
};

/// Round bore of a line.
struct Line {
  double scale, to_flow;
  Turbulence curve;
  Line(double bore, double length, double roughness)
      : scale(2.0 * bore * bore * bore / (length * viscosity * viscosity)),
        to_flow(0.25 * 3.14159265358979 * bore * viscosity),
        curve(roughness / bore) {}
  Flow flow(double drop, double density) const {
    const double s = std::abs(drop) * scale / density;
    const auto re = curve.reynolds(s);
    const double sign = drop < 0.0 ? -1.0 : 1.0;
    return {sign * to_flow * re.value, to_flow * re.slope * scale / density, 0.0,
            -sign * to_flow * re.slope * s / density};
  }
};

}  // namespace poise::by_hand
