// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

/// Check valve, free from A to B: opens over a band above its cracking pressure, at once.
struct Check : RoomDefaults {
  static constexpr About about{
      .kind = "check",
      .sentence = "Check valve: lets oil pass from A to B and shuts against flow from B to A.",
      .law =
          "x = clamp((p_A − p_B − cracking_pressure)/band, 0, 1), band = max(cracking_pressure, 0.2 bar); "
          "drop = (a·Q² + b·Q)/x²; shut it passes leakage·(p_A − p_B)/rated_pressure",
      .source = "one law of opening; no lag",
      .role = Role::one_way,
      .beside = "opens at {cracking_pressure}"};
  static constexpr std::array parameters{
      common::cracking_pressure(0.5 * si::bar),
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
      Port{.name = "A", .meaning = "inlet of the free direction"},
      Port{.name = "B", .meaning = "outlet of the free direction"},
  };
  static constexpr std::array faults{
      Fault{.name = "seat leaks",
            .sentence = "Worn or dirty seat: the zone behind it loses pressure while the pump is off.",
            .parameter = "leakage",
            .change = Fault::Change::becomes,
            .slight = 1 * si::cm3_per_minute,
            .grave = 100 * si::cm3_per_minute},
      Fault{.name = "stuck open",
            .sentence = "It hangs open: the zone behind it follows the pump line.",
            .parameter = "least_opening",
            .change = Fault::Change::becomes,
            .slight = 0.05,
            .grave = 1.0,
            .comes = Comes::suddenly},
      Fault{.name = "stuck shut",
            .sentence = "It does not open, or hardly: the zone behind it is slow or dead.",
            .parameter = "greatest_opening",
            .change = Fault::Change::becomes,
            .slight = 0.1,
            .grave = 0.0,
            .comes = Comes::suddenly},
  };
  static constexpr std::array care{upkeep::holds_pressure};
  static constexpr auto sketch = [](bool spring, bool open) {
    using namespace stroke;
    using namespace pieces;
    Sketch s;
    if (spring) {
      s.add(moved(sprung_check_up(0, 0, open), 0, 1), line(0, 3.5, 0, 4));
    } else {
      s.add(moved(check_up(0, 0, open), 0, 1), line(0, 3, 0, 4));
    }
    return s;
  };
  static constexpr auto symbol = sketch(true, false);
  static constexpr std::array anchors{Anchor{0, -1}, Anchor{0, 4}};
  static std::vector<Stroke> drawn(const Values& v, const Pose& pose) {
    return pieces::strokes(sketch(v["cracking_pressure"] > 0.0, pose.enters(0)));
  }
  static constexpr int oil_ports = 2;

  common::CheckOpening opening;
  Restriction open;
  Leak leak;
  common::Travel travel;
  double volume;

  Check(const Values& v, const Oil& oil)
      : opening(v["cracking_pressure"]),
        open(common::drop_of(v, oil)),
        leak(common::leak_of(v)),
        travel(v),
        volume(v["port_volume"]) {}

  static std::vector<Mismatch> check(const Values& v) {
    return common::together({common::check_opens_below_drop(v), common::leakage_stated_once(v)});
  }

  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }
  template <class T>
  Answer<Check, T> law(const Here<Check, T>& here) const {
    const T drop = here.oil[0].pressure - here.oil[1].pressure;
    Answer<Check, T> a;
    const T x = travel.opening(opening.share(drop));
    a.inflow[0] = mass_flow(T(open.flow(drop, x) + leak.flow(drop)), here.oil[0], here.oil[1]);
    a.inflow[1] = -a.inflow[0];
    return a;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
