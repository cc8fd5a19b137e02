// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Closed forms of small circuits, SI. They stand beside the parts' laws, not on them.
#pragma once

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <vector>

#include "quantity/quantity.hpp"

namespace poise::formulas {

inline double circle(double diameter) { return 0.25 * std::numbers::pi * diameter * diameter; }

/// The value with as large a share of room below an upper limit as above a lower one:
/// (high − v)/high = (v − low)/low, so v = 2/(1/high + 1/low).
inline double between(double low, double high) { return 2.0 / (1.0 / low + 1.0 / high); }

/// The speed with as large a share of room below a highest speed as a way takes below a longest time:
/// 1 − v/v_max = 1 − L/(v·T), so v² = v_max·L/T.
inline double speed_between(double highest, double way, double longest) {
  return std::sqrt(highest * way / longest);
}

/// Oil of ISO VG 46 at 40 °C, the default of a job: 870 kg/m3 at 15 °C less 0.065 % a kelvin.
inline constexpr double viscosity = 46e-6, density = 870.0 * (1.0 - 6.5e-4 * 25.0);

/// Volume of a job's usual oil under pressure over that without: Murnaghan's law for the liquid (1600 MPa,
/// growing by 9 Pa a pascal), and half a percent of air that shrinks with p^(−1/1.4).
inline double pressed(double pressure) {
  constexpr double air = 0.005, modulus = 1.6e9, slope = 9.0;
  const double liquid = std::pow(1.0 + slope * pressure / modulus, -1.0 / slope);
  return (1.0 - air) * liquid + air * std::pow(si::atmosphere / (pressure + si::atmosphere), 1.0 / 1.4);
}

/// Turns of a needle that lets a flow pass at a pressure drop. Sharp-edged orifice with a discharge of 0.62,
/// its drop growing with Q² + Q_t·Q, where Q_t is the flow of Re = 100 through the full bore; the area grows
/// evenly with the turns.
inline double turns_for(double flow, double drop, double bore, double full_turns) {
  const double area = circle(bore), laminar = 100.0 * viscosity * area / bore;
  const double fully_open = density / (2.0 * 0.62 * 0.62 * area * area) * (flow * flow + laminar * flow);
  return full_turns * std::sqrt(fully_open / drop);
}

/// Drop of laminar flow through a line (Hagen and Poiseuille).
inline double laminar_drop(double flow, double bore, double length) {
  return 128.0 * viscosity * density * length * flow / (std::numbers::pi * std::pow(bore, 4));
}

/// Pressure ahead of a sequence valve that passes a flow in its band: p = setting·(1 + override·x), where
/// x opens as far as the flow needs, (p − p_behind)·x² = drop. The drop of a valve's datasheet goes with
/// (q² + 0.1·q)/1.1 of the flow's share q of the rated one.
inline double pressure_before_sequence(double setting, double override_share, double behind, double share,
                                       double rated_drop) {
  const double drop = rated_drop * (share * share + 0.1 * share) / 1.1;
  double shut = 0.0, open = 1.0;
  for (int i = 0; i < 60; ++i) {
    const double x = 0.5 * (shut + open);
    const double passed = (setting * (1.0 + override_share * x) - behind) * x * x;
    (passed < drop ? shut : open) = x;
  }
  return setting * (1.0 + override_share * open);
}

/// Gas in an accumulator: (p + p_atm)·V^n stays; pressures are those of a gauge.
struct Gas {
  double size, precharge, exponent;

  double volume_at(double pressure) const {
    return size * std::pow((precharge + si::atmosphere) / (pressure + si::atmosphere), 1.0 / exponent);
  }
  double pressure_at(double volume) const {
    return (precharge + si::atmosphere) * std::pow(size / volume, exponent) - si::atmosphere;
  }
  /// After it has given oil from a pressure on; empty it has none.
  double pressure_after(double charged, double given) const {
    const double volume = volume_at(charged) + given;
    return volume < size ? pressure_at(volume) : 0.0;
  }
};

/// Where a function that falls passes zero.
inline double zero_of(double low, double high, const std::function<double(double)>& falling) {
  for (int i = 0; i < 100; ++i) {
    const double middle = 0.5 * (low + high);
    (falling(middle) > 0.0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

/// The smallest of rising sizes that is enough; none of them: 0.
inline double smallest(const std::vector<double>& sizes, const std::function<bool(double)>& enough) {
  const auto found = std::ranges::find_if(sizes, enough);
  return found == sizes.end() ? 0.0 : *found;
}

}  // namespace poise::formulas
