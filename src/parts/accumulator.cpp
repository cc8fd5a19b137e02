// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/accumulator.hpp"

namespace poise {

Cushion::Pressure Cushion::look(double oil) const {
  const double left = std::max(volume - oil, least);
  const double pressure = absolute * std::pow(volume / left, exponent), slope = exponent * pressure / left;
  return {pressure - si::atmosphere + slope * std::max(oil - (volume - least), 0.0), slope};
}

double Cushion::stored(double oil) const {
  const double left = std::max(volume - oil, least), ratio = volume / left;
  // ∫(V0/V)^n dV from V to V0, in the form that keeps its digits as n comes to 1.
  const double n = exponent - 1.0, lg = std::log(ratio);
  const double work = absolute * volume * (n * std::abs(lg) < 1e-12 ? lg : std::expm1(n * lg) / n);
  const double beyond = std::max(oil - (volume - least), 0.0), end = absolute * std::pow(ratio, exponent);
  return work + beyond * (end + 0.5 * exponent * end / left * beyond) - si::atmosphere * oil;
}

namespace {

/// Absolute gas pressure without oil at the oil's temperature.
double charge_at_work(const Values& v, const Oil& oil) {
  const double warmer =
      v.given("precharge_temperature") ? oil.temperature() / v["precharge_temperature"] : 1.0;
  return (v["precharge"] + si::atmosphere) * warmer;
}

}  // namespace

Accumulator::Accumulator(const Values& v, const Oil& oil)
    : gas{.volume = v["gas_volume"],
          .absolute = charge_at_work(v, oil),
          .exponent = v["exponent"],
          .least = 0.5 * v["least_gas"] * v["gas_volume"]},
      area(separator_area(gas.volume)),
      mass(v["moving_mass"]),
      dead(v.given("dead_volume") ? v["dead_volume"] : std::max(20 * si::cm3, 0.02 * gas.volume)),
      rub_force(v.word("separator") == 1 ? v["friction"] * area : 0.0),
      neck(Restriction::through(v.given("rated_flow") ? v["rated_flow"] : gas.volume, v["pressure_drop"])),
      separator{.stroke = (1.0 - v["least_gas"]) * gas.volume / area,
                .dry = 0.0,
                .dry_share = 0.0,
                .creep_speed = 1e-6,
                .damping = 0.0,
                .preload = 0.0,
                .rate = 0.0,
                .stop_stiffness = 0.0} {
  // The precharge presses the separator into its stop by a ten-thousandth of the stroke.
  separator.stop_stiffness =
      std::max(gas.absolute - si::atmosphere, 10 * si::bar) * area / (1e-4 * separator.stroke);
}

std::vector<Mismatch> Accumulator::check(const Values& v) {
  if (v.given("rated_pressure") && v["precharge"] >= v["rated_pressure"]) {
    return {{"precharge",
             "it is charged to its rated pressure or above and would never take oil; its precharge must be "
             "below that"}};
  }
  return {};
}

}  // namespace poise
