// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/adjust.hpp"
#include "parts/common.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

/// Pressure switch: a contact that a rising pressure makes at `setting` and a falling one breaks at `reset`.
/// No oil flows through it; it answers as late as its own small volume fills.
struct PressureSwitch : RoomDefaults {
  static constexpr About about{.kind = "pressure_switch",
                               .sentence =
                                   "Pressure switch: its contact is made at a rising pressure and broken at "
                                   "a lower one. Steps wait for "
                                   "it and controls act on it.",
                               .law = "made from p_M ≥ setting until p_M < reset; no flow through it",
                               .source = "contact with a dead band",
                               .beside = "on {setting}\noff {reset}"};
  static constexpr std::array parameters{
      Parameter{.name = "setting",
                .quantity = Quantity::pressure,
                .low = 0.5 * si::bar,
                .high = 1500 * si::bar,
                .meaning = "rising pressure at which the contact is made",
                .adjusted = true,
                .tolerance = 0.02},
      Parameter{
          .name = "reset",
          .quantity = Quantity::pressure,
          .low = -0.9 * si::bar,
          .high = 1500 * si::bar,
          .meaning = "falling pressure at which it is broken again; 2 to 15 % below the setting is usual"},
      common::rated_pressure(),
      common::port_volume(0.5 * si::cm3),
  };
  static constexpr std::array ports{Port{.name = "M", .meaning = "measuring point"}};
  static constexpr std::array mode_list{Mode{
      .name = "made", .meaning = "whether the contact is made", .on = "switches on", .off = "switches off"}};
  static constexpr std::array faults{
      Fault{.name = "drifted up",
            .sentence = "The next step comes late or never; the motion before it is right.",
            .parameter = "setting",
            .slight = 1.02,
            .grave = 1.2},
      Fault{.name = "drifted down",
            .sentence = "The next step comes too early: what should be firm by then is not.",
            .parameter = "setting",
            .slight = 0.98,
            .grave = 0.8},
      Fault{.name = "dead band has grown",
            .sentence = "It lets go late: a pump starts again at too low a pressure.",
            .parameter = "reset",
            .slight = 0.97,
            .grave = 0.7}};
  static constexpr std::array adjusting{adjust::contact};
  static constexpr std::array care{upkeep::switch_points, upkeep::adjuster_locked};
  static constexpr auto sketch = [](bool made) {
    using namespace stroke;
    using namespace pieces;
    return join(box(0, 0, 4, 4), line(2, -1, 2, 0), filled(2, 1, 1, 90),
                path(0.5, 2.25, 1.25, 2.25, 2.75, made ? 2.25 : 3.25), line(2.75, 2.25, 3.5, 2.25),
                adjustable_spring(4, 2));
  };
  static constexpr auto symbol = sketch(false);
  static constexpr std::array anchors{Anchor{2, -1}};
  static std::vector<Stroke> drawn(const Values&, const Pose& pose) {
    return pieces::strokes(sketch(pose.mode_or(0, false)));
  }
  static constexpr int oil_ports = 1, modes = 1;

  double setting, reset, volume;

  PressureSwitch(const Values& v, const Oil&)
      : setting(v["setting"]), reset(v["reset"]), volume(v["port_volume"]) {}

  static std::vector<Mismatch> check(const Values& v) {
    constexpr double least_band = 0.005;  // no switch of the trade tells less apart
    if (v["reset"] <= (1.0 - least_band) * v["setting"]) return {};
    return {{"reset",
             "the contact is broken at a lower pressure than it is made; 2 to 15 % below setting is usual"}};
  }

  template <class T>
  Answer<PressureSwitch, T> law(const Here<PressureSwitch, T>&) const {
    return {};
  }
  template <class H>
  std::array<double, 1> turning(const H& here) const {
    const double p = here.oil[0].pressure;
    return {(here.mode[0] ? reset - p : p - setting) / setting};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
