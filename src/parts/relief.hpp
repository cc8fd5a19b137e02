// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"

namespace poise {

/// Direct-acting relief valve. Its spring chamber sees the outlet, so back pressure in the tank line adds to
/// the setting: τ·dx/dt = clamp((p_P − p_T − p_crack)/band, 0, 1) − x; fully open it passes the rated flow at
/// p_crack + band.
struct Relief : RoomDefaults {
  static constexpr About about{
      .kind = "relief",
      .sentence =
          "Direct-acting pressure-relief valve: opens to tank above its setting and limits the pressure.",
      .law =
          "response_time · dx/dt = clamp((p_P − p_T − p_crack)/band, 0, 1) − x, band = override · p_crack; "
          "drop = (a·Q² + b·Q)/x², rated flow at p_crack + band",
      .source =
          "one law of opening for pressure valves; override of a spring-loaded poppet: Esposito, Fluid Power "
          "with Applications, 6th ed. (poppet spring example)",
      .role = Role::pressure_limit};
  static constexpr std::array parameters{
      Parameter{.name = "setting",
                .quantity = Quantity::pressure,
                .low = 0.5 * si::bar,
                .high = 1200 * si::bar,
                .meaning = "cracking pressure, or the pressure read at setting_flow if that is given",
                .set_by_steps = false},
      Parameter{
          .name = "setting_flow",
          .quantity = Quantity::flow,
          .low = 0.0,
          .high = 1000 * si::litre_per_minute,
          .meaning = "flow over the valve while it was set; left out, the setting is the cracking pressure",
          .optional = true},
      Parameter{.name = "override",
                .quantity = Quantity::share,
                .fallback = 0.10,
                .low = 0.005,
                .high = 1.0,
                .meaning = "rise from cracking to rated flow, as a share of the cracking pressure",
                .source = "the valve's datasheet; default common practice"},
      common::rated_flow(),
      common::rated_pressure(),
      common::response_time(),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "P", .meaning = "the line it guards"},
      Port{.name = "T", .meaning = "outlet to tank"},
  };
  static constexpr std::array state_list{State{.name = "opening", .meaning = "share of full opening"}};
  static constexpr std::array outputs{
      Output{"cracking_pressure", Quantity::pressure, "pressure difference at which it begins to open"}};
  static constexpr int oil_ports = 2, states = 1;

  double cracking, band, response, volume;
  Restriction open;

  Relief(const Values& v, const Oil&)
      : cracking(cracking_of(v)),
        band(v["override"] * cracking),
        response(v["response_time"]),
        volume(v["port_volume"]),
        open(Restriction::through(v["rated_flow"], cracking + band)) {}

  /// Cracking pressure of a valve that reads `setting` with `setting_flow` over it, by halving.
  static double cracking_of(const Values& v);
  static std::vector<Mismatch> check(const Values& v);

  template <class T>
  Answer<Relief, T> law(const Here<Relief, T>& here) const {
    const T drop = here.oil[0].pressure - here.oil[1].pressure;
    Answer<Relief, T> a;
    a.inflow[0] = mass_flow(open.flow(drop, here.state[0]), here.oil[0], here.oil[1]);
    a.inflow[1] = -a.inflow[0];
    a.rate[0] = (share_of_band(T(drop - cracking), band) - here.state[0]) * (1.0 / response);
    return a;
  }
  template <class H>
  std::array<double, 1> report(const H&) const {
    return {cracking};
  }
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
