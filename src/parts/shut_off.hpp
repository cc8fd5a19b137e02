// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

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
      common::leakage_class(),
      common::rated_pressure(),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "one side"},
      Port{.name = "B", .meaning = "other side"},
  };
  static constexpr std::array faults{
      Fault{.name = "does not shut tight",
            .sentence =
                "Dirt or a worn seat: what it should hold sinks, and one part of the circuit feeds another.",
            .parameter = "leakage",
            .change = Fault::Change::becomes,
            .slight = 1 * si::cm3_per_minute,
            .grave = 500 * si::cm3_per_minute,
            .comes = Comes::suddenly},
      Fault{.name = "left shut",
            .sentence = "Nobody opened it: all behind it is dead, or keeps the pressure it had.",
            .parameter = "position",
            .change = Fault::Change::becomes,
            .slight = 0.0,
            .grave = 0.0,
            .comes = Comes::after_work},
      Fault{.name = "left half open",
            .sentence = "The handle stands part way: slow, and hot.",
            .parameter = "pressure_drop",
            .change = Fault::Change::times,
            .slight = 4.0,
            .grave = 100.0,
            .comes = Comes::after_work},
  };
  static constexpr std::array rules{

      Rule{.name = "cock before a gauge",
           .sentence = "A shut cock leaves the reading as it was: open it before trusting the gauge."},
      Rule{.name = "not a stop for people",
           .sentence = "Shut it keeps oil, not people safe: under a load a mechanical stop, and stored "
                       "pressure is let "
                       "off by a bleed valve. Local rules decide.",
           .source = "29 CFR 1926.305; fluid power safety alerts"},

  };
  static constexpr std::array care{upkeep::handle_turns};
  static constexpr auto sketch = [](double shut) {
    using namespace stroke;
    using namespace pieces;
    Sketch s;
    s.add(stroke::open(0, 0, 2, 0), stroke::open(0, 0, 2, 180), line(-3, 0, -2, 0), line(2, 0, 3, 0),
          line(0, 0, 0, 1.75), line(-1, 1.75, 1, 1.75));
    if (shut > 0.5) s.add(filled(0, 0, 2, 0), filled(0, 0, 2, 180));
    return s;
  };
  static constexpr auto symbol = sketch(0.0);
  static constexpr std::array anchors{Anchor{-3, 0}, Anchor{3, 0}};
  static std::vector<Stroke> drawn(const Values& v, const Pose& pose) {
    return pieces::strokes(sketch(1.0 - pose.input_or(0, v["position"])));
  }
  static constexpr int oil_ports = 2, inputs = 1;

  Restriction open;
  Leak leak;
  double volume;

  ShutOff(const Values& v, const Oil& oil)
      : open(common::drop_of(v, oil)), leak(common::leak_of(v)), volume(v["port_volume"]) {}

  static std::vector<Mismatch> check(const Values& v) { return common::leakage_stated_once(v); }
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
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
