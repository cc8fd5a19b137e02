// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"

namespace poise {

/// Sequence valve, drained outside: lets oil on from A to B when A has its pressure; back from B to A runs
/// its check.
struct Sequence : RoomDefaults {
  static constexpr std::array<std::string_view, 2> fitted{"none", "fitted"};
  static constexpr About about{
      .kind = "sequence",
      .sentence = "Sequence valve: the second group gets oil only when the first has its pressure.",
      .law =
          "response_time · dx/dt = clamp((p_A − p_Y − setting)/band, 0, 1) − x, band = override · setting; "
          "drop = (a·Q² + b·Q)/x²; the reverse check as a check valve from B to A",
      .source =
          "one law of opening for pressure valves; drained outside so that the outlet pressure does not add "
          "to "
          "the setting: NAVEDTRA 14105 Fluid Power, ch. 6"};
  static constexpr std::array parameters{
      Parameter{.name = "setting",
                .quantity = Quantity::pressure,
                .low = 1 * si::bar,
                .high = 1000 * si::bar,
                .meaning = "inlet pressure above the drain at which it begins to open, as read when the next "
                           "actuator just starts"},
      Parameter{.name = "override",
                .quantity = Quantity::share,
                .fallback = 0.05,
                .low = 0.005,
                .high = 1.0,
                .meaning = "rise from cracking to fully open, as a share of the setting",
                .source = "the valve's datasheet; default common practice"},
      Parameter{.name = "reverse_check",
                .fallback = 1.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "free return from B to A past the valve",
                .words = fitted},
      common::cracking_pressure(0.5 * si::bar),
      common::rated_flow_or_curve(),
      common::pressure_drop(),
      common::drop_curve(),
      common::measured_viscosity(),
      common::rated_pressure(),
      common::response_time(),
      common::leakage("flow past the shut valve at the rated pressure (350 bar if none is given)"),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "inlet, from the first group"},
      Port{.name = "B", .meaning = "outlet, to the second group"},
      Port{.name = "Y", .meaning = "drain of the spring chamber, to tank"},
  };
  static constexpr std::array state_list{State{.name = "opening", .meaning = "share of full opening"}};
  static constexpr int oil_ports = 3, states = 1;

  double setting, band, response, volume;
  bool reverse_check;
  common::CheckOpening reverse;
  Restriction open;
  Leak leak;

  Sequence(const Values& v, const Oil& oil)
      : setting(v["setting"]),
        band(v["override"] * setting),
        response(v["response_time"]),
        volume(v["port_volume"]),
        reverse_check(v.word("reverse_check") == 1),
        reverse(v["cracking_pressure"]),
        open(common::drop_of(v, oil)),
        leak(Leak::at(v["leakage"], common::leakage_pressure(v))) {}

  static std::vector<Mismatch> check(const Values& v) { return common::check_opens_below_drop(v); }

  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }
  template <class T>
  Answer<Sequence, T> law(const Here<Sequence, T>& here) const {
    const auto& [a, b, y] = here.oil;
    const T drop = a.pressure - b.pressure;
    T flow = open.flow(drop, here.state[0]) + leak.flow(drop);
    if (reverse_check) flow += open.flow(drop, reverse.share(T(-drop)));
    Answer<Sequence, T> out;
    out.inflow[0] = mass_flow(flow, a, b);
    out.inflow[1] = -out.inflow[0];
    out.rate[0] =
        (share_of_band(T(a.pressure - y.pressure - setting), band) - here.state[0]) * (1.0 / response);
    return out;
  }
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
