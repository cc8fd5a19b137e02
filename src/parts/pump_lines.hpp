// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/monotone_curve.hpp"

namespace poise::pumps {

/// Datasheet lines that pumps share.

inline constexpr std::array<std::string_view, 2> off_on{"off", "on"};

constexpr Parameter flow() {
  return {.name = "flow",
          .quantity = Quantity::flow,
          .low = 1 * si::cm3_per_minute,
          .high = 500 * si::litre_per_minute,
          .meaning = "delivery at no load: displacement times speed",
          .source = "the pump's datasheet",
          .optional = true,
          .tolerance = 0.03};
}
constexpr Parameter displacement() {
  return {.name = "displacement",
          .quantity = Quantity::displacement,
          .low = 0.01 * si::cm3,
          .high = 1 * si::litre,
          .meaning = "instead of flow: oil moved per revolution",
          .source = "the pump's datasheet",
          .optional = true,
          .tolerance = common::delivery_of_pumps};
}
constexpr Parameter speed() {
  return {.name = "speed",
          .quantity = Quantity::rotation,
          .fallback = 1450 * si::per_minute,
          .low = 1 * si::per_minute,
          .high = 6000 * si::per_minute,
          .meaning = "shaft speed, counted only with displacement"};
}
constexpr Parameter volumetric_efficiency(std::string_view meaning, double fallback = 0.93) {
  return {.name = "volumetric_efficiency",
          .quantity = Quantity::share,
          .fallback = fallback,
          .low = 0.3,
          .high = 1.0,
          .meaning = meaning,
          .tolerance = common::loss_up_to_twice};
}
constexpr Parameter wear() {
  return {
      .name = "wear",
      .quantity = Quantity::share,
      .fallback = 0.0,
      .low = 0.0,
      .high = 1.0,
      .meaning = "share of the no-load flow that slips back besides at the rated pressure, in a worn pump"};
}
constexpr Parameter mechanical_efficiency(double fallback = 0.9) {
  return {.name = "mechanical_efficiency",
          .quantity = Quantity::share,
          .fallback = fallback,
          .low = 0.3,
          .high = 1.0,
          .meaning = "share of the shaft's power that reaches the oil before leakage"};
}
constexpr Parameter rated_pressure() {
  return {.name = "rated_pressure",
          .quantity = Quantity::pressure,
          .low = 1 * si::bar,
          .high = 1500 * si::bar,
          .meaning = "highest continuous outlet pressure",
          .source = "the pump's datasheet"};
}
constexpr Parameter running() {
  return {.name = "running",
          .fallback = 0.0,
          .low = 0.0,
          .high = 1.0,
          .meaning = "motor off or on",
          .words = off_on,
          .set_by_steps = true};
}
constexpr Parameter start_time() {
  return {.name = "start_time",
          .quantity = Quantity::time,
          .fallback = 0.3,
          .low = 0.0,
          .high = 30.0,
          .meaning = "time from off to full speed and back"};
}
constexpr Parameter motor_power() {
  return {.name = "motor_power",
          .quantity = Quantity::power,
          .low = 10.0,
          .high = 1e6,
          .meaning = "rated power of its motor; left out, motor_load reads 0",
          .source = "the motor's plate",
          .optional = true};
}
constexpr Parameter delivery_curve(std::string_view meaning) {
  return {.name = "delivery_curve",
          .quantity = Quantity::pressure,
          .low = 0.0,
          .high = 1500 * si::bar,
          .meaning = meaning,
          .source = "the pump's datasheet",
          .optional = true,
          .against = Quantity::flow,
          .tolerance = common::delivery_of_pumps};
}

inline constexpr Port suction{.name = "S", .meaning = "suction"};
inline constexpr Port outlet{.name = "P", .meaning = "pressure outlet"};

inline constexpr Output shaft_power{"shaft_power", Quantity::power, "power that the pump takes at its shaft"};
inline constexpr Output delivery{"delivery", Quantity::flow,
                                 "volume flow into the pressure line, at suction density"};
inline constexpr Output motor_load{"motor_load", Quantity::share, "shaft power as a share of motor_power"};

/// delivery_curve as a function; empty where none is given.
inline MonotoneCurve curve_of(const Values& v) { return MonotoneCurve(v.points("delivery_curve")); }
inline std::vector<CurveFit> curves_of(const Values& v) {
  if (!v.given("delivery_curve")) return {};
  return {curve_of(v).fit("delivery_curve")};
}
/// Whether a delivery curve does what no pump does: deliver more at a higher pressure, or backwards.
std::vector<Mismatch> check_curve(const Values& v);
/// Whether just one of flow and displacement is given, where no curve stands instead of both.
std::vector<Mismatch> check_flow(const Values& v, bool with_curve);

inline double no_load_flow(const Values& v) {
  return v.given("flow") ? v["flow"] : v["displacement"] * v["speed"];
}
inline double load_share(const Values& v) { return v.given("motor_power") ? 1.0 / v["motor_power"] : 0.0; }

/// Power at the shaft for the power of displacement times pressure: friction adds to what is put in and takes
/// from what comes back.
inline double at_shaft(double ideal, double mechanical_efficiency) {
  return ideal > 0.0 ? ideal / mechanical_efficiency : ideal * mechanical_efficiency;
}

/// A flow that does not turn back: 0 for x ≤ 0, x from `width` on, without a corner between.
template <class T>
T one_way(const T& x, double width) {
  if (x <= 0.0) return T(0.0);
  if (x >= width) return x;
  return x * x * (2.0 - x * (1.0 / width)) * (1.0 / width);
}

/// Volumetric efficiency 0.95 → 0.85 … 0.5.
inline constexpr Fault worn{
    .name = "pump is worn",
    .sentence =
        "slips more: nearly right without load, slower and weaker with pressure, more so hot; the flow over "
        "the relief shrinks as it is screwed up",
    .parameter = "wear",
    .change = Fault::Change::becomes,
    .slight = 0.1,
    .grave = 0.45};

}  // namespace poise::pumps
