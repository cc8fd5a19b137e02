// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/adjust.hpp"
#include "parts/common.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

/// Unloading valve: lets a pump's flow to tank without pressure while the pilot, taken from behind a check,
/// stands. It snaps: open from p_X = setting on, until p_X is below (1 − differential)·setting. A valve that
/// opened in proportion would idle at tens of bar.
struct UnloadingValve : RoomDefaults {
  static constexpr About about{
      .kind = "unloading_valve",
      .sentence =
          "Unloading valve: lets a pump's flow to tank without pressure while the pilot pressure stands.",
      .law =
          "unloading from p_X ≥ setting until p_X < (1 − differential)·setting; response_time · dx/dt = (1 "
          "or 0) − x; "
          "drop = (a·Q² + b·Q)/x²; shut it passes leakage·(p_P − p_T)/rated_pressure",
      .source =
          "snap with a differential between opening and closing: Esposito, Fluid Power with Applications, "
          "6th ed. "
          "(unloading valves); spring chamber without pressure",
      .beside = "{setting}"};
  static constexpr std::array parameters{
      Parameter{.name = "setting",
                .quantity = Quantity::pressure,
                .low = 1 * si::bar,
                .high = 1000 * si::bar,
                .meaning = "pilot pressure at which it snaps open",
                .adjusted = true,
                .tolerance = 0.03},
      Parameter{.name = "differential",
                .quantity = Quantity::share,
                .fallback = 0.15,
                .low = 0.02,
                .high = 0.6,
                .meaning = "fall of the pilot below the setting at which it shuts, as a share of the setting",
                .source = "the valve's datasheet; default common practice"},
      common::rated_flow_or_curve(),
      common::pressure_drop(4 * si::bar),
      common::drop_curve(),
      common::measured_viscosity(),
      common::rated_pressure(),
      common::response_time(),
      common::leakage("flow past the shut valve at the rated pressure (350 bar if none is given)"),
      common::leakage_class(),
      common::least_opening(),
      common::greatest_opening(),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "P", .meaning = "from the pump that is unloaded"},
      Port{.name = "T", .meaning = "to tank"},
      Port{.name = "X", .meaning = "pilot, from behind the check", .pilot = true},
  };
  static constexpr std::array state_list{State{.name = "opening", .meaning = "share of full opening"}};
  static constexpr std::array mode_list{Mode{.name = "unloading",
                                             .meaning = "whether it lets the pump's flow to tank",
                                             .on = "snaps open",
                                             .off = "shuts"}};
  static constexpr std::array faults{
      Fault{.name = "opens early",
            .sentence = "Weak spring: slow above a low pressure; the pressure is still reached.",
            .parameter = "setting",
            .slight = 0.9,
            .grave = 0.5},
      Fault{.name = "turned up",
            .sentence = "It unloads late: the motor carries both pumps at a pressure it is not made for.",
            .parameter = "setting",
            .slight = 1.1,
            .grave = 2.0,
            .comes = Comes::after_work},
      Fault{.name = "stuck shut",
            .sentence =
                "It never unloads: the motor labours or trips, the full flow goes over the relief, heat.",
            .parameter = "greatest_opening",
            .change = Fault::Change::becomes,
            .slight = 0.1,
            .grave = 0.0,
            .comes = Comes::suddenly},
      Fault{.name = "stuck open",
            .sentence =
                "The pump's flow always goes to tank: slow approach, normal at load, noise in the tank line.",
            .parameter = "least_opening",
            .change = Fault::Change::becomes,
            .slight = 0.05,
            .grave = 1.0,
            .comes = Comes::suddenly}};
  static constexpr std::array adjusting{adjust::unloading};
  static constexpr std::array care{upkeep::unloads, upkeep::adjuster_locked};
  static constexpr auto sketch = [](bool open) {
    using namespace stroke;
    using namespace pieces;
    return join(one_box(-1, 5), way_up(open), pilot(-1, 2, 0, 2), adjustable_spring(4, 2));
  };
  static constexpr auto symbol = sketch(false);
  static constexpr std::array anchors{Anchor{2, -1}, Anchor{2, 5}, Anchor{-1, 2}};
  static std::vector<Stroke> drawn(const Values&, const Pose& pose) {
    return pieces::strokes(sketch(pose.mode_or(0, pose.enters(0))));
  }
  static constexpr int oil_ports = 3, states = 1, modes = 1;

  double setting, differential, response, volume;
  common::Travel travel;
  Restriction open;
  Leak leak;

  UnloadingValve(const Values& v, const Oil& oil)
      : setting(v["setting"]),
        differential(v["differential"]),
        response(v["response_time"]),
        volume(v["port_volume"]),
        travel(v),
        open(common::drop_of(v, oil)),
        leak(common::leak_of(v)) {}

  static std::vector<Mismatch> check(const Values& v) { return common::leakage_stated_once(v); }
  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }

  template <class T>
  Answer<UnloadingValve, T> law(const Here<UnloadingValve, T>& here) const {
    const T drop = here.oil[0].pressure - here.oil[1].pressure;
    Answer<UnloadingValve, T> a;
    a.inflow[0] = mass_flow(T(open.flow(drop, here.state[0]) + leak.flow(drop)), here.oil[0], here.oil[1]);
    a.inflow[1] = -a.inflow[0];
    a.rate[0] = (travel.opening(here.mode[0] ? 1.0 : 0.0) - here.state[0]) * (1.0 / response);
    return a;
  }
  template <class H>
  std::array<double, 1> turning(const H& here) const {
    const double share = here.oil[2].pressure / setting;
    return {here.mode[0] ? 1.0 - differential - share : share - 1.0};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
