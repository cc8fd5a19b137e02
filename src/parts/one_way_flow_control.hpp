// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/adjust.hpp"
#include "parts/needle.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

/// Needle and check side by side: metered from B to A, nearly free from A to B.
struct OneWayFlowControl : RoomDefaults {
  static constexpr About about{
      .kind = "one_way_flow_control",
      .sentence = "Needle with a check beside it: free from A to B, metered from B to A.",
      .law = "Q = Q_needle + Q_check: the laws of needle and check in parallel",
      .source = "the two parts it is made of",
      .ramp = "turning_time",
      .beside = "{turns} open\n[bore {bore}]"};
  static constexpr std::array parameters{
      NeedleArea::bore(),
      NeedleArea::turns(),
      NeedleArea::full_turns(),
      NeedleArea::flow_curve(),
      NeedleArea::curve_drop(),
      NeedleArea::curve_viscosity(),
      NeedleArea::area_factor(),
      common::turning_time(),
      common::cracking_pressure(0.5 * si::bar),
      common::rated_flow_or_curve(),
      common::pressure_drop(),
      common::drop_curve(),
      common::measured_viscosity(),
      Parameter{.name = "check_least",
                .quantity = Quantity::share,
                .fallback = 0.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "opening below which the check does not go: 0 unless something holds it open"},
      Parameter{.name = "check_most",
                .quantity = Quantity::share,
                .fallback = 1.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "opening above which the check does not go: 1 unless it sticks"},
      common::rated_pressure(),
      common::port_volume(),
  };
  static constexpr std::array faults{
      NeedleArea::drifted_open, NeedleArea::clogged,
      Fault{.name = "check stuck open",
            .sentence = "Dirt holds the check off its seat: no speed control that way.",
            .parameter = "check_least",
            .change = Fault::Change::becomes,
            .slight = 0.01,
            .grave = 1.0,
            .comes = Comes::suddenly},
      Fault{.name = "check stuck shut",
            .sentence = "The free way goes through the needle too: the return is slow.",
            .parameter = "check_most",
            .change = Fault::Change::becomes,
            .slight = 0.3,
            .grave = 0.0,
            .comes = Comes::suddenly}};
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "inlet of the free direction"},
      Port{.name = "B", .meaning = "inlet of the metered direction"},
  };
  static constexpr std::array adjusting{adjust::by_turns};
  static constexpr std::array care{upkeep::flow_timed, upkeep::adjuster_locked};
  static constexpr auto sketch = [](bool free) {
    using namespace stroke;
    using namespace pieces;
    return join(line(0, -3, 0, 3), restriction(0, 0), adjustable(0, 0, 1.75), check_up(3, 0, free),
                path(0, -2, 3, -2), path(0, 2, 3, 2), dot(0, -2), dot(0, 2), chain(box(-2.25, -3, 4.5, 3)));
  };
  static constexpr auto symbol = sketch(false);
  static constexpr std::array anchors{Anchor{0, -3}, Anchor{0, 3}};
  static std::vector<Stroke> drawn(const Values&, const Pose& pose) {
    return pieces::strokes(sketch(pose.enters(0)));
  }
  static constexpr int oil_ports = 2, inputs = 1;

  NeedleArea needle;
  common::CheckOpening opening;
  double least, most;  ///< bounds of the check's opening
  Restriction open;
  double volume;

  OneWayFlowControl(const Values& v, const Oil& oil)
      : needle(v, oil),
        opening(v["cracking_pressure"]),
        least(v["check_least"]),
        most(v["check_most"]),
        open(common::drop_of(v, oil)),
        volume(v["port_volume"]) {}

  static std::vector<Mismatch> check(const Values& v) {
    auto found = NeedleArea::check(v);
    for (auto& m : common::check_opens_below_drop(v)) found.push_back(std::move(m));
    if (v["check_least"] > v["check_most"]) {
      found.push_back({"check_least", "the check cannot stay open further than check_most lets it open"});
    }
    return found;
  }

  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) {
    auto found = NeedleArea::fit(v, oil);
    for (auto& fit : common::drop_fit(v, oil)) found.push_back(std::move(fit));
    return found;
  }
  template <class T>
  Answer<OneWayFlowControl, T> law(const Here<OneWayFlowControl, T>& here) const {
    const T drop = here.oil[0].pressure - here.oil[1].pressure;
    const T metered = needle.flow(here.oil[0], here.oil[1], here.input[0]);
    Answer<OneWayFlowControl, T> a;
    a.inflow[0] = mass_flow(T(metered + open.flow(drop, T(least + (most - least) * opening.share(drop)))),
                            here.oil[0], here.oil[1]);
    a.inflow[1] = -a.inflow[0];
    return a;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
