// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"

namespace poise {

/// Check valve, free from A to B: opens over a band above its cracking pressure, at once.
struct Check : RoomDefaults {
  static constexpr About about{
      .kind = "check",
      .sentence = "Check valve: lets oil pass from A to B and shuts against flow from B to A.",
      .law =
          "x = clamp((p_A − p_B − cracking_pressure)/band, 0, 1), band = max(cracking_pressure, 0.2 bar); "
          "drop = (a·Q² + b·Q)/x²; shut it passes leakage·(p_A − p_B)/rated_pressure",
      .source = "one law of opening; no lag",
      .role = Role::one_way};
  static constexpr std::array parameters{
      common::cracking_pressure(0.5 * si::bar),
      common::rated_flow_or_curve(),
      common::pressure_drop(),
      common::drop_curve(),
      common::measured_viscosity(),
      common::leakage("flow past the shut seat at the rated pressure (350 bar if none is given)"),
      common::rated_pressure(),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "inlet of the free direction"},
      Port{.name = "B", .meaning = "outlet of the free direction"},
  };
  static constexpr int oil_ports = 2;

  common::CheckOpening opening;
  Restriction open;
  Leak leak;
  double volume;

  Check(const Values& v, const Oil& oil)
      : opening(v["cracking_pressure"]),
        open(common::drop_of(v, oil)),
        leak(Leak::at(v["leakage"], common::leakage_pressure(v))),
        volume(v["port_volume"]) {}

  static std::vector<Mismatch> check(const Values& v) { return common::check_opens_below_drop(v); }

  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }
  template <class T>
  Answer<Check, T> law(const Here<Check, T>& here) const {
    const T drop = here.oil[0].pressure - here.oil[1].pressure;
    Answer<Check, T> a;
    a.inflow[0] =
        mass_flow(T(open.flow(drop, opening.share(drop)) + leak.flow(drop)), here.oil[0], here.oil[1]);
    a.inflow[1] = -a.inflow[0];
    return a;
  }
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
