// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/needle.hpp"

namespace poise {

/// Needle and check side by side: metered from B to A, nearly free from A to B.
struct OneWayFlowControl : RoomDefaults {
  static constexpr About about{
      .kind = "one_way_flow_control",
      .sentence = "Needle with a check beside it: free from A to B, metered from B to A.",
      .law = "Q = Q_needle + Q_check: the laws of needle and check in parallel",
      .source = "the two parts it is made of",
      .ramp = "turning_time"};
  static constexpr std::array parameters{
      NeedleArea::bore(),
      NeedleArea::turns(),
      NeedleArea::full_turns(),
      common::turning_time(),
      common::cracking_pressure(0.5 * si::bar),
      common::rated_flow_or_curve(),
      common::pressure_drop(),
      common::drop_curve(),
      common::measured_viscosity(),
      common::rated_pressure(),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "inlet of the free direction"},
      Port{.name = "B", .meaning = "inlet of the metered direction"},
  };
  static constexpr int oil_ports = 2, inputs = 1;

  NeedleArea needle;
  common::CheckOpening opening;
  Restriction open;
  double volume;

  OneWayFlowControl(const Values& v, const Oil& oil)
      : needle(v, oil),
        opening(v["cracking_pressure"]),
        open(common::drop_of(v, oil)),
        volume(v["port_volume"]) {}

  static std::vector<Mismatch> check(const Values& v) {
    auto found = NeedleArea::check(v);
    for (auto& m : common::check_opens_below_drop(v)) found.push_back(std::move(m));
    return found;
  }

  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }
  template <class T>
  Answer<OneWayFlowControl, T> law(const Here<OneWayFlowControl, T>& here) const {
    const T drop = here.oil[0].pressure - here.oil[1].pressure;
    const T metered = needle.flow(here.oil[0], here.oil[1], here.input[0]);
    Answer<OneWayFlowControl, T> a;
    a.inflow[0] = mass_flow(T(metered + open.flow(drop, opening.share(drop))), here.oil[0], here.oil[1]);
    a.inflow[1] = -a.inflow[0];
    return a;
  }
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
