// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"

namespace poise {

/// The adjustable part of a needle valve: area grows evenly with the turns from shut, to that of `bore` at
/// full_turns.
struct NeedleArea {
  static constexpr Parameter bore() {
    return {.name = "bore",
            .quantity = Quantity::length,
            .low = 0.05 * si::mm,
            .high = 25 * si::mm,
            .meaning = "diameter of the round hole with the needle's area when fully open",
            .source = "the valve's datasheet"};
  }
  static constexpr Parameter turns() {
    return {.name = "turns",
            .quantity = Quantity::turns,
            .low = 0.0,
            .high = 20.0,
            .meaning = "turns open from shut, as set",
            .set_by_steps = true};
  }
  static constexpr Parameter full_turns() {
    return {.name = "full_turns",
            .quantity = Quantity::turns,
            .fallback = 8.0,
            .low = 0.25,
            .high = 20.0,
            .meaning = "turns from shut to fully open"};
  }
  static std::vector<Mismatch> check(const Values& v) {
    if (v["turns"] <= v["full_turns"]) return {};
    return {{"turns", "more turns than the valve has; full_turns says how many that is"}};
  }

  Orifice orifice;
  double full;

  NeedleArea(const Values& v, const Oil& oil)
      : orifice{.area = circle(v["bore"]), .viscosity = oil.viscosity_law()}, full(v["full_turns"]) {}

  template <class T>
  T flow(const OilHere<T>& from, const OilHere<T>& to, const Input& turned) const {
    return orifice.flow(from, to, T(std::clamp(turned.now() / full, 0.0, 1.0)));
  }
};

/// Needle valve: a sharp-edged opening set by turns. Shut it passes nothing but its leakage.
struct Needle : RoomDefaults {
  static constexpr About about{
      .kind = "needle",
      .sentence = "Needle valve: a restriction set by turning a screw, the same in both directions.",
      .law =
          "drop = a·Q² + a·Q_t·Q, a = density/(2·0.62²·A²), A = turns/full_turns · π/4·bore², Q_t at Re = "
          "100",
      .source = "sharp-edged orifice, Merritt, Hydraulic Control Systems (from memory)",
      .ramp = "turning_time"};
  static constexpr std::array parameters{
      NeedleArea::bore(),     NeedleArea::turns(),      NeedleArea::full_turns(),
      common::turning_time(), common::rated_pressure(), common::port_volume(1 * si::cm3),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "one side"},
      Port{.name = "B", .meaning = "other side"},
  };
  static constexpr int oil_ports = 2, inputs = 1;

  NeedleArea needle;
  double volume;

  Needle(const Values& v, const Oil& oil) : needle(v, oil), volume(v["port_volume"]) {}

  static std::vector<Mismatch> check(const Values& v) { return NeedleArea::check(v); }

  template <class T>
  Answer<Needle, T> law(const Here<Needle, T>& here) const {
    Answer<Needle, T> a;
    a.inflow[0] = mass_flow(needle.flow(here.oil[0], here.oil[1], here.input[0]), here.oil[0], here.oil[1]);
    a.inflow[1] = -a.inflow[0];
    return a;
  }
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
