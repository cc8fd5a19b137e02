// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <initializer_list>
#include <string_view>
#include <vector>

#include "parts/laws.hpp"
#include "parts/table.hpp"

namespace poise::common {

/// Datasheet lines that many parts share, so that they read the same everywhere.

/// What leaks past clearances grows with wear to twice what is stated; common practice.
inline constexpr Tolerance loss_up_to_twice{1.0, 0.0, Tolerance::Of::rest};
/// Of pumps as they are made; common practice.
inline constexpr Tolerance delivery_of_pumps = 0.03;
/// Half to twice, as seals are new, worn, dry or cold; common practice.
inline constexpr Tolerance friction_of_seals{0.5, 1.0};

constexpr Parameter rated_pressure() {
  return {.name = "rated_pressure",
          .quantity = Quantity::pressure,
          .low = 1 * si::bar,
          .high = 1500 * si::bar,
          .meaning = "highest pressure the part may ever see; left out, its rating cannot be checked",
          .source = "the part's datasheet",
          .optional = true};
}

constexpr Parameter rated_flow() {
  return {.name = "rated_flow",
          .quantity = Quantity::flow,
          .low = 1 * si::cm3_per_minute,
          .high = 1000 * si::litre_per_minute,
          .meaning = "flow at which the pressure drop is stated",
          .source = "the part's datasheet"};
}

/// The rated flow of a part whose pressure drop may be given as a curve instead.
constexpr Parameter rated_flow_or_curve() {
  Parameter line = rated_flow();
  line.instead = "drop_curve";
  return line;
}

constexpr Parameter drop_curve() {
  return {.name = "drop_curve",
          .quantity = Quantity::flow,
          .low = 0.0,
          .high = 1000 * si::litre_per_minute,
          .meaning = "instead of rated_flow and pressure_drop: points of flow and pressure drop, fully open",
          .source = "the part's datasheet (ISO 4411 curve)",
          .optional = true,
          .against = Quantity::pressure};
}

constexpr Parameter measured_viscosity() {
  return {.name = "measured_viscosity",
          .quantity = Quantity::viscosity,
          .low = 1 * si::mm2_per_s,
          .high = 1000 * si::mm2_per_s,
          .meaning =
              "viscosity at which the pressure drop was measured: the laminar share then follows the job's "
              "oil; left out, the drop holds for any oil",
          .source = "the part's datasheet; ISO 4411 measures near 32 mm2/s (from memory)",
          .optional = true};
}

constexpr Parameter pressure_drop(double fallback = 5 * si::bar) {
  return {.name = "pressure_drop",
          .quantity = Quantity::pressure,
          .fallback = fallback,
          .low = 0.05 * si::bar,
          .high = 200 * si::bar,
          .meaning = "pressure drop at the rated flow, fully open",
          .source = "the part's datasheet; default common practice"};
}

constexpr Parameter port_volume(double fallback = 2 * si::cm3) {
  return {.name = "port_volume",
          .quantity = Quantity::volume,
          .fallback = fallback,
          .low = 0.05 * si::cm3,
          .high = 1 * si::litre,
          .meaning = "oil in the part at each of its ports"};
}

constexpr Parameter turning_time() {
  return {.name = "turning_time",
          .quantity = Quantity::time,
          .fallback = 0.5,
          .low = 0.0,
          .high = 60.0,
          .meaning = "time that a hand takes to change the setting"};
}

constexpr Parameter response_time() {
  return {.name = "response_time",
          .quantity = Quantity::time,
          .fallback = 10 * si::ms,
          .low = 0.1 * si::ms,
          .high = 2.0,
          .meaning = "time constant with which the valve's opening follows the pressure",
          .source = "default common practice"};
}

constexpr Parameter cracking_pressure(double fallback) {
  return {.name = "cracking_pressure",
          .quantity = Quantity::pressure,
          .fallback = fallback,
          .low = 0.0,
          .high = 20 * si::bar,
          .meaning = "pressure difference at which the check opens",
          .source = "the part's datasheet",
          .tolerance = 0.3};
}

constexpr Parameter leakage(std::string_view meaning, double fallback = 0.0) {
  return {.name = "leakage",
          .quantity = Quantity::flow,
          .fallback = fallback,
          .low = 0.0,
          .high = 1 * si::litre_per_minute,
          .meaning = meaning,
          .source = "the part's datasheet",
          .tolerance = {1.0, 0.0}};
}

/// Classes of leakage as the trade writes them, and the flow each stands for at the rated pressure; a drop is
/// 0.05 cm3 (common practice). "spool" is the clearance of a spool in its bore: some 10 to 300 cm3/min are
/// met (from memory).
inline constexpr std::array<std::string_view, 5> leakage_words{"none visible", "1 drop/min", "5 drops/min",
                                                               "15 drops/min", "spool"};
inline constexpr double drop_of_oil = 0.05 * si::cm3;
inline constexpr std::array<double, 5> leakage_flows{
    0.0, 1 * drop_of_oil* si::per_minute, 5 * drop_of_oil* si::per_minute, 15 * drop_of_oil* si::per_minute,
    50 * si::cm3_per_minute};

constexpr Parameter leakage_class() {
  return {.name = "leakage_class",
          .low = 0.0,
          .high = static_cast<double>(leakage_words.size() - 1),
          .meaning =
              "instead of leakage: how tight it shuts at the rated pressure; a drop is 0.05 cm3, a spool "
              "passes 50 cm3/min by its clearance",
          .source = "the part's datasheet or test sheet; figures common practice",
          .words = leakage_words,
          .optional = true};
}

/// The share of full opening that dirt or wear keeps open, and the share beyond which it does not open: for
/// faults.
constexpr Parameter least_opening() {
  return {.name = "least_opening",
          .quantity = Quantity::share,
          .fallback = 0.0,
          .low = 0.0,
          .high = 1.0,
          .meaning =
              "share of full opening that stays open whatever the pressure: dirt on the seat, a valve that "
              "hangs"};
}
constexpr Parameter greatest_opening() {
  return {.name = "greatest_opening",
          .quantity = Quantity::share,
          .fallback = 1.0,
          .low = 0.0,
          .high = 1.0,
          .meaning = "share of full opening beyond which it does not open: 0 for a valve stuck shut"};
}

/// How far a valve can move.
struct Travel {
  double least, span;
  explicit Travel(const Values& v)
      : least(v["least_opening"]), span(std::max(0.0, v["greatest_opening"] - v["least_opening"])) {}
  /// The opening where a sound valve would stand at `share`.
  template <class T>
  T opening(const T& share) const {
    return least + span * share;
  }
};

/// The opening of a check: p_in − p_out − p_crack over a band of max(p_crack, 0.2 bar), at once (physics: no
/// lag).
struct CheckOpening {
  double cracking;
  double band;
  explicit CheckOpening(double cracking_pressure)
      : cracking(cracking_pressure), band(std::max(cracking_pressure, 0.2 * si::bar)) {}
  template <class T>
  T share(const T& pushing) const {
    return share_of_band(T(pushing - cracking), band);
  }
};

/// The restriction of a part with `rated_flow`, `pressure_drop`, `drop_curve` and `measured_viscosity`, in
/// this oil.
Restriction drop_of(const Values& v, const Oil& oil);
/// Its curve beside the law, for `poise parts KIND --curve`; empty where no curve is given. In the oil that
/// the curve was measured in.
std::vector<CurveFit> drop_fit(const Values& v, const Oil& oil);

/// Whether the stated pressure drop of a check lies above the pressure at which it is fully open.
std::vector<Mismatch> check_opens_below_drop(const Values& values);

/// Pressure at which `leakage` is stated when the datasheet names none: the rated pressure, else 350 bar.
inline double leakage_pressure(const Values& v) {
  return v.given("rated_pressure") ? v["rated_pressure"] : 350 * si::bar;
}

/// What a shut valve passes: its `leakage`, or what its `leakage_class` stands for, at that pressure.
Leak leak_of(const Values& v);
/// Several lists of what does not go together as one.
std::vector<Mismatch> together(std::initializer_list<std::vector<Mismatch>> lists);
/// Whether the leakage is stated twice.
std::vector<Mismatch> leakage_stated_once(const Values& values);

}  // namespace poise::common
