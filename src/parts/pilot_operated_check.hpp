// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

/// Pilot-operated check, free A→B, held shut by B; the pilot piston at X, `ratio` times the seat, pushes it
/// open and never pulls it shut. Against A (drained inside) or against Y (drained outside).
struct PilotOperatedCheck : RoomDefaults {
  static constexpr std::array<std::string_view, 2> drains{"internal", "external"};
  static constexpr About about{
      .kind = "pilot_operated_check",
      .sentence = "Check valve that a pilot pressure opens: holds a load until it is told to let go.",
      .law =
          "x = clamp(((p_A − p_B) + ratio·max(0, p_X − p_A) − cracking_pressure)/band, 0, 1); with an "
          "external "
          "drain the pilot acts as ratio·max(0, p_X − p_Y)",
      .source =
          "force balance on poppet and pilot piston; pilot ratio in print: 4:1 opens 3,000 psi with 750 psi "
          "(training article, check value PC-01)",
      .role = Role::one_way,
      .beside = "pilot {ratio} : 1"};
  static constexpr std::array parameters{
      Parameter{.name = "ratio",
                .low = 1.1,
                .high = 50.0,
                .meaning = "pilot piston area over seat area",
                .source = "the valve's datasheet"},
      Parameter{.name = "drain",
                .fallback = 0.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "what the back of the pilot piston sees: port A, or a drain line of its own at Y",
                .words = drains},
      common::cracking_pressure(1 * si::bar),
      common::rated_flow_or_curve(),
      common::pressure_drop(),
      common::drop_curve(),
      common::measured_viscosity(),
      common::leakage("flow past the shut seat at the rated pressure (350 bar if none is given)"),
      common::leakage_class(),
      common::rated_pressure(),
      common::least_opening(),
      common::greatest_opening(),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "valve side"},
      Port{.name = "B", .meaning = "load side, held"},
      Port{.name = "X", .meaning = "pilot", .pilot = true},
      Port{.name = "Y",
           .meaning = "drain of the pilot piston",
           .needed_if_parameter = "drain",
           .needed_if_word = 1,
           .pilot = true},
  };
  static constexpr std::array faults{
      Fault{.name = "seat leaks",
            .sentence = "Worn or dirty seat: the load creeps although the valve side is at zero.",
            .parameter = "leakage",
            .change = Fault::Change::becomes,
            .slight = 1 * si::cm3_per_minute,
            .grave = 100 * si::cm3_per_minute},
      Fault{.name = "pilot piston sticks out",
            .sentence =
                "The pilot piston keeps the seat open although the pilot is at zero: the load creeps in "
                "neutral.",
            .parameter = "least_opening",
            .change = Fault::Change::becomes,
            .slight = 0.02,
            .grave = 0.3,
            .comes = Comes::suddenly},
      Fault{.name = "pilot has lost strength",
            .sentence = "Pilot line half blocked or its seal leaks: it does not let go of a heavy load.",
            .parameter = "ratio",
            .slight = 0.8,
            .grave = 0.4},
      Fault{.name = "stuck shut",
            .sentence = "It does not open, or hardly: the actuator is slow or dead.",
            .parameter = "greatest_opening",
            .change = Fault::Change::becomes,
            .slight = 0.1,
            .grave = 0.0,
            .comes = Comes::suddenly},
  };
  static constexpr std::array care{upkeep::holds_load, upkeep::pilot_lets_go};
  static constexpr auto sketch = [](bool drained, bool open) {
    using namespace stroke;
    using namespace pieces;
    Sketch s;
    s.add(check_up(0, 0, open), pilot(-2, -1, -1.25, -1, -0.55, -0.3), chain(box(-2, -2, 2, 2)));
    if (drained) s.add(pilot(0.55, -0.3, 1.25, -1, 2, -1));
    return s;
  };
  static constexpr auto symbol = sketch(true, false);
  static constexpr std::array anchors{Anchor{0, -2}, Anchor{0, 2}, Anchor{-2, -1}, Anchor{2, -1}};
  static std::vector<Stroke> drawn(const Values& v, const Pose& pose) {
    return pieces::strokes(sketch(v.word("drain") == 1, pose.runs(0)));
  }
  static constexpr int oil_ports = 4;

  double ratio;
  bool external;
  common::CheckOpening opening;
  Restriction open;
  Leak leak;
  common::Travel travel;
  double volume;

  PilotOperatedCheck(const Values& v, const Oil& oil)
      : ratio(v["ratio"]),
        external(v.word("drain") == 1),
        opening(v["cracking_pressure"]),
        open(common::drop_of(v, oil)),
        leak(common::leak_of(v)),
        travel(v),
        volume(v["port_volume"]) {}

  static std::vector<Mismatch> check(const Values& v) {
    return common::together({common::check_opens_below_drop(v), common::leakage_stated_once(v)});
  }

  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }
  template <class T>
  Answer<PilotOperatedCheck, T> law(const Here<PilotOperatedCheck, T>& here) const {
    const T drop = here.oil[0].pressure - here.oil[1].pressure;
    const T pilot = here.oil[2].pressure - (external ? here.oil[3] : here.oil[0]).pressure;
    const T share = travel.opening(opening.share(T(drop + ratio * positive(pilot))));
    Answer<PilotOperatedCheck, T> a;
    a.inflow[0] = mass_flow(T(open.flow(drop, share) + leak.flow(drop)), here.oil[0], here.oil[1]);
    a.inflow[1] = -a.inflow[0];
    return a;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
