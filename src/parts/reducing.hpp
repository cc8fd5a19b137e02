// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"

namespace poise {

/// Pressure-reducing valve, relieving: open at rest, it shuts as its outlet nears the setting, and above the
/// setting plus a dead band lets the outlet off to tank. One spool y in [−1, 1], one lag; y > 0 opens P→A, y
/// < 0 opens A→T.
struct Reducing : RoomDefaults {
  static constexpr About about{
      .kind = "reducing",
      .sentence = "Pressure-reducing valve, relieving: holds a branch below the main pressure.",
      .law =
          "e = p_A − p_T; y goes to clamp((setting − e)/band, 0, 1) or, above setting + dead_band, to "
          "−clamp((e − setting − dead_band)/band, 0, 1), with response_time; drop = (a·Q² + b·Q)/y²",
      .source =
          "one law of opening for pressure valves; the setting is read with nothing flowing (common "
          "practice)"};
  static constexpr std::array parameters{
      Parameter{.name = "setting",
                .quantity = Quantity::pressure,
                .low = 1 * si::bar,
                .high = 1000 * si::bar,
                .meaning = "outlet pressure at which it is shut, above the drain"},
      Parameter{.name = "override",
                .quantity = Quantity::share,
                .fallback = 0.05,
                .low = 0.005,
                .high = 1.0,
                .meaning = "fall of the outlet from shut to fully open, as a share of the setting",
                .source = "the valve's datasheet; default common practice"},
      Parameter{.name = "dead_band",
                .quantity = Quantity::share,
                .fallback = 0.03,
                .low = 0.0,
                .high = 0.5,
                .meaning = "from shut to the beginning of relieving, as a share of the setting"},
      common::rated_flow_or_curve(),
      common::pressure_drop(8 * si::bar),
      common::drop_curve(),
      common::measured_viscosity(),
      common::rated_pressure(),
      common::response_time(),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "P", .meaning = "main pressure in"},
      Port{.name = "A", .meaning = "reduced pressure out"},
      Port{.name = "T", .meaning = "drain and relieving outlet to tank"},
  };
  static constexpr std::array state_list{
      State{.name = "spool", .meaning = "1 fully open, 0 shut, −1 relieving fully"}};
  static constexpr int oil_ports = 3, states = 1;

  double setting, band, dead, response, volume;
  Restriction open;

  Reducing(const Values& v, const Oil& oil)
      : setting(v["setting"]),
        band(v["override"] * setting),
        dead(v["dead_band"] * setting),
        response(v["response_time"]),
        volume(v["port_volume"]),
        open(common::drop_of(v, oil)) {}

  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }
  template <class T>
  Answer<Reducing, T> law(const Here<Reducing, T>& here) const {
    const auto& [p, a, t] = here.oil;
    const T y = here.state[0];
    const T forward = mass_flow(open.flow(T(p.pressure - a.pressure), positive(y)), p, a);
    const T relieving = mass_flow(open.flow(T(a.pressure - t.pressure), positive(T(-y))), a, t);
    const T e = a.pressure - t.pressure;
    const T target = share_of_band(T(setting - e), band) - share_of_band(T(e - setting - dead), band);
    Answer<Reducing, T> out;
    out.inflow = {forward, relieving - forward, -relieving};
    out.rate[0] = (target - y) * (1.0 / response);
    return out;
  }
  Space space(int) const { return {.volume = volume}; }
  double start(int) const { return 1.0; }
};

}  // namespace poise
