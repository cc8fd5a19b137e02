// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/adjust.hpp"
#include "parts/common.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

/// Counterbalance valve between a load at A and its directional valve at B: lifts freely from B to A, holds,
/// and lowers as its pilot X helps the load's pressure to open it: e = p_A + ratio·p_X − (1 + ratio)·p_back −
/// setting. p_back is that of B where the spring chamber drains to B, and that of the vent Y where it is
/// vented.
struct Counterbalance : RoomDefaults {
  static constexpr std::array<std::string_view, 2> chambers{"to B", "vented"};
  static constexpr About about{
      .kind = "counterbalance",
      .sentence =
          "Counterbalance valve: free to lift, holds the load, and lets it down no faster than it is driven.",
      .law =
          "response_time · dx/dt = clamp(e/band, 0, 1) − x, e = p_A + ratio·p_X − (1 + ratio)·p_back − "
          "setting, "
          "p_back = p_B, or p_Y of a vented spring chamber; band = override · setting; drop = (a·Q² + "
          "b·Q)/x²; "
          "check from B to A; shut it leaks leakage·(p_A − p_B)/rated_pressure",
      .source =
          "force balance on seat, pilot and spring chamber; ratio counted on the pilot alone, p_X = (setting "
          "− "
          "p_A)/ratio without back pressure (check value CB-03)",
      .beside = "{setting}\npilot {ratio} : 1"};
  static constexpr std::array parameters{
      Parameter{.name = "setting",
                .quantity = Quantity::pressure,
                .low = 5 * si::bar,
                .high = 1000 * si::bar,
                .meaning =
                    "load pressure at which it opens without pilot and back pressure; 1.3 times the highest "
                    "load pressure is usual",
                .adjusted = true,
                .tolerance = 0.05},
      Parameter{
          .name = "ratio",
          .low = 0.0,
          .high = 20.0,
          .meaning =
              "pilot area over the area that the load acts on; 2 to 4 for loads that vary or swing, 8 to 10 "
              "for steady ones",
          .source = "the valve's datasheet"},
      Parameter{
          .name = "override",
          .quantity = Quantity::share,
          .fallback = 0.05,
          .low = 0.005,
          .high = 2.0,
          .meaning = "rise of the opening pressure from cracking to fully open, as a share of the setting",
          .source = "the valve's datasheet; default common practice",
          .tolerance = 0.5},
      Parameter{
          .name = "spring_chamber",
          .fallback = 0.0,
          .low = 0.0,
          .high = 1.0,
          .meaning =
              "where the spring chamber drains: to B, whose pressure then adds 1 + ratio times, or outside",
          .words = chambers},
      common::cracking_pressure(1 * si::bar),
      common::rated_flow_or_curve(),
      common::pressure_drop(10 * si::bar),
      common::drop_curve(),
      common::measured_viscosity(),
      common::rated_pressure(),
      common::response_time(),
      common::leakage(
          "flow from A to B past the shut valve at the rated pressure (350 bar if none is given)"),
      common::leakage_class(),
      common::least_opening(),
      common::greatest_opening(),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "load"},
      Port{.name = "B", .meaning = "directional valve's side"},
      Port{.name = "X", .meaning = "pilot, from the other side of the cylinder", .pilot = true},
      Port{.name = "Y",
           .meaning = "vent of the spring chamber",
           .needed_if_parameter = "spring_chamber",
           .needed_if_word = 1,
           .pilot = true},
  };
  static constexpr std::array state_list{State{.name = "opening", .meaning = "share of full opening"}};
  static constexpr std::array faults{
      Fault{.name = "dirt on the seat",
            .sentence = "It stays partly open: the load sinks and the cylinder is blamed.",
            .parameter = "least_opening",
            .change = Fault::Change::becomes,
            .slight = 0.005,
            .grave = 0.3},
      Fault{.name = "seat leaks",
            .sentence = "The load creeps down with everything shut.",
            .parameter = "leakage",
            .change = Fault::Change::becomes,
            .slight = 1 * si::cm3_per_minute,
            .grave = 100 * si::cm3_per_minute},
      Fault{.name = "spring relaxed",
            .sentence = "It sinks with heavy loads only.",
            .parameter = "setting",
            .slight = 0.95,
            .grave = 0.7},
      Fault{.name = "turned up",
            .sentence = "It lowers slowly and hot, or not at all.",
            .parameter = "setting",
            .slight = 1.1,
            .grave = 1.6,
            .comes = Comes::after_work},
      Fault{
          .name = "pilot has lost strength",
          .sentence =
              "Pilot orifice blocked or the seal of its piston gone: it does not lower, the pump's pressure "
              "is high.",
          .parameter = "ratio",
          .slight = 0.5,
          .grave = 0.0},
      Fault{.name = "pilot not damped",
            .sentence = "Air in the pilot or its orifice missing: the load bounces on its way down.",
            .parameter = "response_time",
            .slight = 0.5,
            .grave = 0.1},
      Fault{.name = "stuck shut",
            .sentence = "It does not lower.",
            .parameter = "greatest_opening",
            .change = Fault::Change::becomes,
            .slight = 0.1,
            .grave = 0.0,
            .comes = Comes::suddenly}};
  static constexpr std::array adjusting{adjust::load_holding};
  static constexpr std::array care{upkeep::holds_load, upkeep::pilot_lets_go, upkeep::adjuster_locked};
  static constexpr auto sketch = [](bool open, bool vented, bool back) {
    using namespace stroke;
    using namespace pieces;
    return join(one_box(-3, 7), way_down(open), pilot(2, 5, -1, 5, -1, 3, 0, 3), pilot(-2, 1, 0, 1),
                adjustable_spring(4, 2), spring_drain(vented ? -3 : -2), check_up(8, 2, back),
                beside(8, -2, 6), dot(vented ? 2 : 5, -2));
  };
  static constexpr auto symbol = sketch(false, true, false);
  static constexpr std::array anchors{Anchor{2, 7}, Anchor{2, -3}, Anchor{-2, 1}, Anchor{5, -3}};
  static std::vector<Stroke> drawn(const Values& v, const Pose& pose) {
    return pieces::strokes(sketch(pose.enters(0), v.word("spring_chamber") == 1, pose.enters(1)));
  }
  static constexpr int oil_ports = 4, states = 1;

  double setting, ratio, band, response, volume;
  bool vented;
  common::CheckOpening lifting;
  common::Travel travel;
  Restriction open;
  Leak leak;

  Counterbalance(const Values& v, const Oil& oil)
      : setting(v["setting"]),
        ratio(v["ratio"]),
        band(v["override"] * setting),
        response(v["response_time"]),
        volume(v["port_volume"]),
        vented(v.word("spring_chamber") == 1),
        lifting(v["cracking_pressure"]),
        travel(v),
        open(common::drop_of(v, oil)),
        leak(common::leak_of(v)) {}

  static std::vector<Mismatch> check(const Values& v) {
    return common::together({common::check_opens_below_drop(v), common::leakage_stated_once(v)});
  }
  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }

  template <class T>
  Answer<Counterbalance, T> law(const Here<Counterbalance, T>& here) const {
    const auto& [load, valve, pilot, vent] = here.oil;
    const T drop = load.pressure - valve.pressure;
    const T flow =
        open.flow(drop, here.state[0]) + open.flow(drop, lifting.share(T(-drop))) + leak.flow(drop);
    Answer<Counterbalance, T> a;
    a.inflow[0] = mass_flow(flow, load, valve);
    a.inflow[1] = -a.inflow[0];
    const T& back = (vented ? vent : valve).pressure;
    const T e = load.pressure + ratio * pilot.pressure - (1.0 + ratio) * back - setting;
    a.rate[0] = (travel.opening(share_of_band(e, band)) - here.state[0]) * (1.0 / response);
    return a;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
