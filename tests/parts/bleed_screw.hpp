// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"

namespace poise {

/// Bleed screw: a small opening to tank, turned open by hand to let air out (worked example of CONTRIBUTING).
struct BleedScrew : RoomDefaults {
  static constexpr About about{
      .kind = "bleed_screw",
      .sentence = "Bleed screw: a small opening, turned open by hand to let air out.",
      .law = "drop = a·Q² + a·Q_t·Q, a = density/(2·0.62²·A²), A = share · π/4·bore²",
      .source = "sharp-edged orifice, Merritt, Hydraulic Control Systems (from memory)",
      .ramp = "turning_time"};
  static constexpr std::array parameters{
      Parameter{.name = "bore",
                .quantity = Quantity::length,
                .fallback = 1 * si::mm,
                .low = 0.1 * si::mm,
                .high = 5 * si::mm,
                .meaning = "diameter of the opening"},
      Parameter{.name = "open",
                .quantity = Quantity::share,
                .fallback = 0.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "how far it is open",
                .set_by_steps = true},
      common::turning_time(),
      common::rated_pressure(),
      common::port_volume(0.2 * si::cm3),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "the volume that is bled"},
      Port{.name = "T", .meaning = "outlet"},
  };
  static constexpr std::array rules{
      Rule{"bleed without pressure",
           "Open it at the lowest pressure that moves the oil, and catch what comes out."}};
  static constexpr int oil_ports = 2, inputs = 1;

  Orifice orifice;
  double volume;

  BleedScrew(const Values& v, const Oil& oil)
      : orifice{.area = circle(v["bore"]), .viscosity = oil.viscosity_law()}, volume(v["port_volume"]) {}

  template <class T>
  Answer<BleedScrew, T> law(const Here<BleedScrew, T>& here) const {
    const auto& [a, t] = here.oil;
    Answer<BleedScrew, T> answer;
    answer.inflow[0] = mass_flow(orifice.flow(a, t, T(here.input[0].now())), a, t);
    answer.inflow[1] = -answer.inflow[0];
    return answer;
  }
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
