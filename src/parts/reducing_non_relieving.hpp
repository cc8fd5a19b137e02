// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/adjust.hpp"
#include "parts/reducing.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

/// Pressure-reducing valve that only shuts: what leaks past it, or what heat and a load do in a closed
/// branch, raises the outlet above the setting. One opening, one lag: τ·dx/dt = clamp((setting − (p_A −
/// p_T))/band, 0, 1) − x.
struct ReducingNonRelieving : RoomDefaults {
  static constexpr std::array<std::string_view, 2> fitted{"none", "fitted"};
  static constexpr About about{
      .kind = "reducing_non_relieving",
      .sentence =
          "Pressure-reducing valve that only shuts: a closed branch behind it can climb above the setting.",
      .law =
          "response_time · dx/dt = clamp((setting − (p_A − p_T))/band, 0, 1) − x, band = override · setting; "
          "drop = "
          "(a·Q² + b·Q)/x² from P to A; it leaks leakage·(p_P − p_A)/rated_pressure; the reverse check as a "
          "check "
          "valve from A to P",
      .source =
          "one law of opening for pressure valves; the setting is read with nothing flowing (common "
          "practice)",
      .beside = "{setting}"};
  static constexpr std::array parameters{
      reducing::setting(),
      reducing::override_share(),
      Parameter{.name = "reverse_check",
                .fallback = 1.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "free return from A to P past the valve",
                .words = fitted},
      common::cracking_pressure(0.5 * si::bar),
      common::rated_flow_or_curve(),
      common::pressure_drop(8 * si::bar),
      common::drop_curve(),
      common::measured_viscosity(),
      common::rated_pressure(),
      common::response_time(),
      common::leakage(
          "flow from P to A past the shut valve at the rated pressure (350 bar if none is given)"),
      common::leakage_class(),
      common::least_opening(),
      common::greatest_opening(),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "P", .meaning = "main pressure in"},
      Port{.name = "A", .meaning = "reduced pressure out"},
      Port{.name = "T", .meaning = "drain of the spring chamber, to tank; no oil flows there", .pilot = true},
  };
  static constexpr std::array state_list{State{.name = "opening", .meaning = "share of full opening"}};
  static constexpr std::array faults{
      reducing::sticks_open, reducing::sticks_shut, reducing::relaxed, reducing::turned_up,
      Fault{.name = "seat leaks",
            .sentence = "The pressure of a closed branch creeps up in minutes.",
            .parameter = "leakage",
            .change = Fault::Change::becomes,
            .slight = 2 * si::cm3_per_minute,
            .grave = 200 * si::cm3_per_minute}};
  static constexpr std::array rules{reducing::order};
  static constexpr std::array adjusting{adjust::reducing};
  static constexpr std::array care{upkeep::reduced_reading, upkeep::adjuster_locked, upkeep::drain_free};
  static constexpr auto sketch = [](bool open, bool check, bool back) {
    using namespace stroke;
    using namespace pieces;
    Sketch s;
    s.add(one_box(-2, 7), way_up(open), pilot(2, 5, -1, 5, -1, 2, 0, 2), adjustable_spring(4, 2),
          spring_drain(-2));
    if (check) s.add(check_down(8, 2, back), beside(8, -1, 6));
    return s;
  };
  static constexpr auto symbol = sketch(true, false, false);
  static constexpr std::array anchors{Anchor{2, -2}, Anchor{2, 7}, Anchor{5, -2}};
  static std::vector<Stroke> drawn(const Values& v, const Pose& pose) {
    const bool check = v.word("reverse_check") == 1;
    return pieces::strokes(sketch(pose.flow.empty() || pose.enters(0), check, check && pose.enters(1)));
  }
  static constexpr int oil_ports = 3, states = 1;

  reducing::Spring spring;
  double response, volume;
  bool reverse_check;
  common::CheckOpening reverse;
  common::Travel travel;
  Restriction open;
  Leak leak;

  ReducingNonRelieving(const Values& v, const Oil& oil)
      : spring(v),
        response(v["response_time"]),
        volume(v["port_volume"]),
        reverse_check(v.word("reverse_check") == 1),
        reverse(v["cracking_pressure"]),
        travel(v),
        open(common::drop_of(v, oil)),
        leak(common::leak_of(v)) {}

  static std::vector<Mismatch> check(const Values& v) {
    return common::together({common::check_opens_below_drop(v), common::leakage_stated_once(v)});
  }
  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }

  template <class T>
  Answer<ReducingNonRelieving, T> law(const Here<ReducingNonRelieving, T>& here) const {
    const auto& [p, a, t] = here.oil;
    const T drop = p.pressure - a.pressure;
    // The spool keeps oil of the outlet from flowing back as long as it is shut; open it is open both ways.
    T flow = open.flow(drop, here.state[0]) + leak.flow(drop);
    if (reverse_check) flow += open.flow(drop, reverse.share(T(-drop)));
    Answer<ReducingNonRelieving, T> out;
    out.inflow[0] = mass_flow(flow, p, a);
    out.inflow[1] = -out.inflow[0];
    const T target = travel.opening(spring.share(T(a.pressure - t.pressure)));
    out.rate[0] = (target - here.state[0]) * (1.0 / response);
    return out;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
  double start(int) const { return travel.opening(1.0); }
};

}  // namespace poise
