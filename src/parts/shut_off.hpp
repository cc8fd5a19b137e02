// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"

namespace poise {

/// Shut-off valve: open or shut by hand.
struct ShutOff : RoomDefaults {
  static constexpr std::array<std::string_view, 2> shut_open{"shut", "open"};
  static constexpr About about{
      .kind = "shut_off",
      .sentence = "Shut-off valve: a way that a hand opens or shuts.",
      .law =
          "drop = (a·Q² + b·Q)/x², x from 0 (shut) to 1 (open) over turning_time; shut it passes its leakage",
      .source = "a restriction",
      .ramp = "turning_time"};
  static constexpr std::array parameters{
      Parameter{.name = "position",
                .fallback = 1.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "shut or open",
                .words = shut_open,
                .set_by_steps = true},
      common::turning_time(),
      common::rated_flow_or_curve(),
      common::pressure_drop(1 * si::bar),
      common::drop_curve(),
      common::measured_viscosity(),
      common::leakage("flow past the shut valve at the rated pressure (350 bar if none is given)"),
      common::rated_pressure(),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "one side"},
      Port{.name = "B", .meaning = "other side"},
  };
  static constexpr int oil_ports = 2, inputs = 1;

  Restriction open;
  Leak leak;
  double volume;

  ShutOff(const Values& v, const Oil& oil)
      : open(common::drop_of(v, oil)),
        leak(Leak::at(v["leakage"], common::leakage_pressure(v))),
        volume(v["port_volume"]) {}

  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }
  template <class T>
  Answer<ShutOff, T> law(const Here<ShutOff, T>& here) const {
    const T drop = here.oil[0].pressure - here.oil[1].pressure;
    Answer<ShutOff, T> a;
    a.inflow[0] =
        mass_flow(T(open.flow(drop, here.input[0].now()) + leak.flow(drop)), here.oil[0], here.oil[1]);
    a.inflow[1] = -a.inflow[0];
    return a;
  }
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
