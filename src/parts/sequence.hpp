// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/adjust.hpp"
#include "parts/common.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

namespace sequence {

/// What of the symbol there is, and what of it stands open. By itself all that the kind can have, at rest.
struct Look {
  bool open = false;
  bool inside = true, outside = true, check = true;  ///< pilot inside and outside, reverse check
  bool back = false;
};

}  // namespace sequence

/// Sequence valve, drained outside: lets oil on from A to B when A, or the outside pilot X, has its pressure;
/// back from B to A runs its check.
struct Sequence : RoomDefaults {
  static constexpr std::array<std::string_view, 2> fitted{"none", "fitted"};
  static constexpr std::array<std::string_view, 2> pilots{"internal", "external"};
  static constexpr About about{
      .kind = "sequence",
      .sentence = "Sequence valve: the second group gets oil only when the first has its pressure.",
      .law =
          "response_time · dx/dt = clamp((p_pilot − p_Y − setting)/band, 0, 1) − x, p_pilot = p_A or, "
          "outside, p_X, "
          "band = override · setting; "
          "drop = (a·Q² + b·Q)/x²; the reverse check as a check valve from B to A",
      .source =
          "one law of opening for pressure valves; drained outside so that the outlet pressure does not add "
          "to "
          "the setting: NAVEDTRA 14105 Fluid Power, ch. 6",
      .beside = "{setting}"};
  static constexpr std::array parameters{
      Parameter{
          .name = "setting",
          .quantity = Quantity::pressure,
          .low = 1 * si::bar,
          .high = 1000 * si::bar,
          .meaning =
              "pilot pressure above the drain at which it begins to open; with the pilot inside that of "
              "the inlet, as read when the next actuator just starts",
          .adjusted = true,
          .tolerance = 0.03},
      Parameter{.name = "override",
                .quantity = Quantity::share,
                .fallback = 0.05,
                .low = 0.005,
                .high = 1.0,
                .meaning = "rise from cracking to fully open, as a share of the setting",
                .source = "the valve's datasheet; default common practice",
                .tolerance = 0.5},
      Parameter{.name = "pilot",
                .fallback = 0.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "what opens it: the inlet A, or a line of its own at X",
                .words = pilots},
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
      common::leakage_class(),
      common::least_opening(),
      common::greatest_opening(),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "inlet, from the first group"},
      Port{.name = "B", .meaning = "outlet, to the second group"},
      Port{.name = "Y", .meaning = "drain of the spring chamber, to tank", .pilot = true},
      Port{.name = "X",
           .meaning = "pilot from outside",
           .needed_if_parameter = "pilot",
           .needed_if_word = 1,
           .pilot = true},
  };
  static constexpr std::array state_list{State{.name = "opening", .meaning = "share of full opening"}};
  static constexpr std::array faults{
      Fault{.name = "spring relaxed",
            .sentence =
                "The second group starts early; the first one's gauge stands lower while the second moves.",
            .parameter = "setting",
            .slight = 0.97,
            .grave = 0.6},
      Fault{.name = "turned up",
            .sentence = "The second group is late or never starts; the first one is at full pressure.",
            .parameter = "setting",
            .slight = 1.05,
            .grave = 1.4,
            .comes = Comes::after_work},
      Fault{.name = "leaks across",
            .sentence = "The second group creeps before its turn.",
            .parameter = "leakage",
            .change = Fault::Change::becomes,
            .slight = 10 * si::cm3_per_minute,
            .grave = 500 * si::cm3_per_minute},
      Fault{.name = "hangs open",
            .sentence = "Dirt keeps it open: there is no order any more.",
            .parameter = "least_opening",
            .change = Fault::Change::becomes,
            .slight = 0.02,
            .grave = 0.5,
            .comes = Comes::suddenly},
      Fault{.name = "sticks shut",
            .sentence = "The second group is slow or dead; the first one is at full pressure.",
            .parameter = "greatest_opening",
            .change = Fault::Change::becomes,
            .slight = 0.2,
            .grave = 0.0,
            .comes = Comes::suddenly},
      Fault{.name = "reverse check stuck shut",
            .sentence = "The second group does not come back, or hangs at the setting.",
            .parameter = "reverse_check",
            .change = Fault::Change::becomes,
            .slight = 0.0,
            .grave = 0.0,
            .comes = Comes::suddenly},
  };
  static constexpr std::array rules{

      Rule{"pressure is not position",
           "It opens when the first part jams, is missing, or the cold line takes the pressure: where the "
           "order "
           "guards people or the work, prove the position as well."},

  };
  static constexpr std::array adjusting{adjust::sequence};
  static constexpr std::array care{upkeep::order_of_motions, upkeep::adjuster_locked, upkeep::drain_free};
  static constexpr auto sketch = [](const sequence::Look& f) {
    using namespace stroke;
    using namespace pieces;
    Sketch s;
    s.add(one_box(-3, 6), way_up(f.open), adjustable_spring(4, 2), spring_drain(-3));
    if (f.inside) s.add(pilot_from_below());
    if (f.outside) s.add(pilot(-2, 2, f.inside ? -1 : 0, 2));
    if (f.check) s.add(check_down(8, 2, f.back), beside(8, -2, 5));
    return s;
  };
  static constexpr auto symbol = sketch(sequence::Look{});
  static constexpr std::array anchors{Anchor{2, -3}, Anchor{2, 6}, Anchor{5, -3}, Anchor{-2, 2}};
  static std::vector<Stroke> drawn(const Values& v, const Pose& pose) {
    const bool outside = v.word("pilot") == 1, check = v.word("reverse_check") == 1;
    return pieces::strokes(sketch({.open = pose.enters(0),
                                   .inside = !outside,
                                   .outside = outside,
                                   .check = check,
                                   .back = check && pose.enters(1)}));
  }
  static constexpr int oil_ports = 4, states = 1;

  double setting, band, response, volume;
  bool reverse_check, outside;
  common::CheckOpening reverse;
  Restriction open;
  Leak leak;
  common::Travel travel;

  Sequence(const Values& v, const Oil& oil)
      : setting(v["setting"]),
        band(v["override"] * setting),
        response(v["response_time"]),
        volume(v["port_volume"]),
        reverse_check(v.word("reverse_check") == 1),
        outside(v.word("pilot") == 1),
        reverse(v["cracking_pressure"]),
        open(common::drop_of(v, oil)),
        leak(common::leak_of(v)),
        travel(v) {}

  static std::vector<Mismatch> check(const Values& v) {
    return common::together({common::check_opens_below_drop(v), common::leakage_stated_once(v)});
  }

  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }
  template <class T>
  Answer<Sequence, T> law(const Here<Sequence, T>& here) const {
    const auto& [a, b, y, x] = here.oil;
    const T drop = a.pressure - b.pressure;
    T flow = open.flow(drop, here.state[0]) + leak.flow(drop);
    if (reverse_check) flow += open.flow(drop, reverse.share(T(-drop)));
    Answer<Sequence, T> out;
    out.inflow[0] = mass_flow(flow, a, b);
    out.inflow[1] = -out.inflow[0];
    const T e = (outside ? x : a).pressure - y.pressure - setting;
    out.rate[0] = (travel.opening(share_of_band(e, band)) - here.state[0]) * (1.0 / response);
    return out;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
