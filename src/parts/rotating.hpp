// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <numbers>

#include "parts/common.hpp"

namespace poise {

/// What pumps and motors on a shaft share. A shaft's position is its angle, rad, its speed rad/s; torques are
/// N m, positive in the direction of positive turning.

inline constexpr double one_turn = 2.0 * std::numbers::pi;

namespace shafts {
/// Speed scale of dry friction in bearings, rad/s: a shaft that friction holds may creep a fraction of this.
inline constexpr double creep = 1e-4;

constexpr Port port(std::string_view meaning, bool may_stay_free) {
  return {.name = "shaft",
          .domain = Domain::motion,
          .meaning = meaning,
          .may_stay_free = may_stay_free,
          .turns = true};
}
constexpr Parameter displacement(std::string_view meaning) {
  return {.name = "displacement",
          .quantity = Quantity::displacement,
          .low = 0.01 * si::cm3,
          .high = 10 * si::litre,
          .meaning = meaning,
          .source = "the part's datasheet",
          .tolerance = common::delivery_of_pumps};
}
constexpr Parameter rated_speed() {
  return {.name = "rated_speed",
          .quantity = Quantity::rotation,
          .fallback = 1450 * si::per_minute,
          .low = 1 * si::per_minute,
          .high = 10000 * si::per_minute,
          .meaning = "shaft speed at which the efficiencies are stated"};
}
constexpr Parameter efficiency(std::string_view name, std::string_view meaning, double fallback,
                               Tolerance tolerance = {}) {
  return {.name = name,
          .quantity = Quantity::share,
          .fallback = fallback,
          .low = 0.3,
          .high = 1.0,
          .meaning = meaning,
          .tolerance = tolerance};
}
constexpr Parameter idle_share() {
  return {.name = "idle_share",
          .quantity = Quantity::share,
          .fallback = 0.3,
          .low = 0.0,
          .high = 1.0,
          .meaning = "share of the friction torque that is there without pressure; the rest grows with it"};
}
constexpr Parameter inertia(double fallback, std::string_view meaning) {
  return {.name = "inertia",
          .quantity = Quantity::inertia,
          .fallback = fallback,
          .low = 1e-6,
          .high = 1e4,
          .meaning = meaning};
}
constexpr Parameter wear() {
  return {
      .name = "wear",
      .quantity = Quantity::share,
      .fallback = 0.0,
      .low = 0.0,
      .high = 1.0,
      .meaning =
          "share of displacement times rated speed that slips besides at the rated pressure, in a worn part"};
}
inline constexpr Output torque{"torque", Quantity::torque, "torque that it gives to its shaft"};
inline constexpr Output power{"power", Quantity::power, "power that it gives to its shaft"};
inline constexpr Output speed{"speed_of_rotation", Quantity::rotation, "of the shaft"};
}  // namespace shafts

/// Displacement per angle with its dry friction: torque displacement·Δp/2π without losses, friction in two
/// parts, one always there and one that grows with |Δp| (after W. E. Wilson, Trans. ASME 68 (1946) 115, from
/// memory; the share that grows with speed is left out).
struct Rotor {
  double per_angle;  ///< m3/rad
  double fixed;      ///< N m
  double with_drop;  ///< N m/Pa

  /// `loss`: friction torque at the rated pressure over displacement·rated_pressure/2π.
  Rotor(const Values& v, double loss)
      : per_angle(v["displacement"] / one_turn),
        fixed(v["idle_share"] * loss * per_angle * v["rated_pressure"]),
        with_drop((1.0 - v["idle_share"]) * loss * per_angle) {}

  /// Friction torque against the turning.
  template <class T>
  T rub(const T& drop, const T& speed) const {
    return rubbing(T(fixed + with_drop * magnitude(drop)), speed, shafts::creep, 0.0);
  }
};

}  // namespace poise
