// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/adjust.hpp"
#include "parts/common.hpp"
#include "parts/monotone_curve.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

/// The adjustable part of a needle valve: area grows evenly with the turns from shut, to that of `bore` at
/// full_turns, or as the datasheet's flows over the turns show.
struct NeedleArea {
  static constexpr Parameter bore() {
    return {.name = "bore",
            .quantity = Quantity::length,
            .low = 0.05 * si::mm,
            .high = 25 * si::mm,
            .meaning = "diameter of the round hole with the needle's area when fully open",
            .source = "the valve's datasheet",
            .instead = "flow_curve"};
  }
  static constexpr Parameter turns() {
    return {.name = "turns",
            .quantity = Quantity::turns,
            .low = 0.0,
            .high = 20.0,
            .meaning = "turns open from shut, as set",
            .set_by_steps = true,
            .adjusted = true};
  }
  static constexpr Parameter full_turns() {
    return {.name = "full_turns",
            .quantity = Quantity::turns,
            .fallback = 8.0,
            .low = 0.25,
            .high = 20.0,
            .meaning = "turns from shut to fully open"};
  }
  static constexpr Parameter flow_curve() {
    return {.name = "flow_curve",
            .quantity = Quantity::turns,
            .low = 0.0,
            .high = 20.0,
            .meaning = "instead of bore and full_turns: points of turns and the flow at curve_drop",
            .source = "the valve's datasheet",
            .optional = true,
            .against = Quantity::flow};
  }
  static constexpr Parameter curve_drop() {
    return {.name = "curve_drop",
            .quantity = Quantity::pressure,
            .low = 0.1 * si::bar,
            .high = 700 * si::bar,
            .meaning = "pressure drop at which the flows of flow_curve were measured",
            .source = "the valve's datasheet",
            .optional = true};
  }
  static constexpr Parameter curve_viscosity() {
    return {.name = "curve_viscosity",
            .quantity = Quantity::viscosity,
            .low = 1 * si::mm2_per_s,
            .high = 1000 * si::mm2_per_s,
            .meaning = "viscosity at which flow_curve was measured; left out, that of the job's oil",
            .source = "the valve's datasheet",
            .optional = true};
  }
  static constexpr Parameter area_factor() {
    return {.name = "area_factor",
            .quantity = Quantity::share,
            .fallback = 1.0,
            .low = 0.0,
            .high = 5.0,
            .meaning = "area over that of the datasheet: below 1 clogged, above 1 worn or drifted open",
            .tolerance = 0.15};
  }
  static constexpr Fault drifted_open{
      .name = "needle has drifted open",
      .sentence = "The screw has moved or the edge is worn: the motion is faster than it was set.",
      .parameter = "area_factor",
      .change = Fault::Change::times,
      .slight = 1.1,
      .grave = 2.0};
  static constexpr Fault clogged{
      .name = "needle is clogged",
      .sentence = "Dirt in the gap: slower, worse each day, and a jump after knocking at it.",
      .parameter = "area_factor",
      .change = Fault::Change::times,
      .slight = 0.9,
      .grave = 0.02};

  static std::vector<Mismatch> check(const Values& v);
  /// The datasheet's flows beside those of the law, in the oil of the measurement; empty where none are
  /// given.
  static std::vector<CurveFit> fit(const Values& v, const Oil& oil);

  Orifice orifice;
  double full, factor;
  MonotoneCurve opening;  ///< share of the full area over the turns; empty: even

  NeedleArea(const Values& v, const Oil& oil);

  double share(double turned) const {
    const double t = std::clamp(turned, 0.0, full);
    return factor * (opening.empty() ? t / full : opening.look(t).value);
  }
  template <class T>
  T flow(const OilHere<T>& from, const OilHere<T>& to, const Input& turned) const {
    return orifice.flow(from, to, T(share(turned.now())));
  }
};

/// Needle valve: a sharp-edged opening set by turns. Shut it passes nothing but its leakage.
struct Needle : RoomDefaults {
  static constexpr About about{
      .kind = "needle",
      .sentence = "Needle valve: a restriction set by turning a screw, the same in both directions.",
      .law =
          "drop = a·Q² + a·Q_t·Q, a = density/(2·0.62²·A²), A = area_factor · turns/full_turns · π/4·bore², "
          "or the area that flow_curve shows at these turns; Q_t at Re = 100",
      .source = "sharp-edged orifice, Merritt, Hydraulic Control Systems (from memory)",
      .ramp = "turning_time",
      .beside = "{turns} open\n[bore {bore}]"};
  static constexpr std::array parameters{
      NeedleArea::bore(),        NeedleArea::turns(),
      NeedleArea::full_turns(),  NeedleArea::flow_curve(),
      NeedleArea::curve_drop(),  NeedleArea::curve_viscosity(),
      NeedleArea::area_factor(), common::turning_time(),
      common::rated_pressure(),  common::port_volume(1 * si::cm3),
  };
  static constexpr std::array faults{NeedleArea::drifted_open, NeedleArea::clogged};
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "one side"},
      Port{.name = "B", .meaning = "other side"},
  };
  static constexpr std::array adjusting{adjust::by_turns};
  static constexpr std::array care{upkeep::flow_timed, upkeep::adjuster_locked};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(line(0, -2, 0, 2), restriction(0, 0), adjustable(0, 0, 1.75));
  }();
  static constexpr std::array anchors{Anchor{0, -2}, Anchor{0, 2}};
  static constexpr int oil_ports = 2, inputs = 1;

  NeedleArea needle;
  double volume;

  Needle(const Values& v, const Oil& oil) : needle(v, oil), volume(v["port_volume"]) {}

  static std::vector<Mismatch> check(const Values& v) { return NeedleArea::check(v); }
  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return NeedleArea::fit(v, oil); }

  template <class T>
  Answer<Needle, T> law(const Here<Needle, T>& here) const {
    Answer<Needle, T> a;
    a.inflow[0] = mass_flow(needle.flow(here.oil[0], here.oil[1], here.input[0]), here.oil[0], here.oil[1]);
    a.inflow[1] = -a.inflow[0];
    return a;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
