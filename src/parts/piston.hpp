// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"

namespace poise {

/// The mechanics that cylinders, clamps and supports share: rubbing, a return spring, and a stop at each end.
struct Piston {
  double stroke;
  double dry, dry_share;  ///< friction: fixed part, N, and share of the pressing force
  double creep_speed;     ///< v0 of the rubbing law, m/s
  double damping;         ///< N/(m/s)
  double preload, rate;   ///< return spring, pushes back: N at position 0, N/m
  double stop_stiffness;  ///< N/m

  static constexpr Parameter friction() {
    return {.name = "friction",
            .quantity = Quantity::force,
            .fallback = 50.0,
            .low = 0.0,
            .high = 1e6,
            .meaning = "dry friction that is always there",
            .source = "default common practice",
            .tolerance = common::friction_of_seals};
  }
  static constexpr Parameter seal_friction() {
    return {.name = "seal_friction",
            .quantity = Quantity::share,
            .fallback = 0.02,
            .low = 0.0,
            .high = 0.3,
            .meaning = "friction that grows with pressure, as a share of the pressing force",
            .source = "2 to 5 % common practice",
            .tolerance = common::friction_of_seals};
  }
  static constexpr Parameter creep_speed_line() {
    return {
        .name = "creep_speed",
        .quantity = Quantity::speed,
        .fallback = 1e-6,
        .low = 1e-8,
        .high = 1e-3,
        .meaning = "speed scale of the friction law: a part held by friction may creep a fraction of this"};
  }
  static constexpr Parameter damping_line() {
    return {.name = "damping",
            .quantity = Quantity::damping,
            .fallback = 500.0,
            .low = 0.0,
            .high = 1e7,
            .meaning = "friction that grows with speed"};
  }
  static constexpr Parameter moving_mass(double fallback = 5.0) {
    return {.name = "moving_mass",
            .quantity = Quantity::mass,
            .fallback = fallback,
            .low = 0.01,
            .high = 1e5,
            .meaning = "mass of piston and rod"};
  }
  static constexpr Parameter stop_stiffness_line() {
    return {.name = "stop_stiffness",
            .quantity = Quantity::spring_rate,
            .fallback = 2e8,
            .low = 1e5,
            .high = 1e11,
            .meaning = "stiffness of the metal stops at both ends of the stroke"};
  }
  static constexpr Parameter spring_preload(double fallback = 0.0) {
    return {.name = "spring_preload",
            .quantity = Quantity::force,
            .fallback = fallback,
            .low = 0.0,
            .high = 1e6,
            .meaning = "force of the return spring when fully in",
            .tolerance = 0.1};
  }
  static constexpr Parameter spring_rate(double fallback = 0.0) {
    return {.name = "spring_rate",
            .quantity = Quantity::spring_rate,
            .fallback = fallback,
            .low = 0.0,
            .high = 1e8,
            .meaning = "stiffness of the return spring",
            .tolerance = 0.1};
  }
  static constexpr Parameter stroke_line() {
    return {.name = "stroke",
            .quantity = Quantity::length,
            .low = 0.5 * si::mm,
            .high = 20.0,
            .meaning = "from fully in to fully out",
            .series = Series::strokes};
  }
  static constexpr Parameter start_position() {
    return {.name = "start_position",
            .quantity = Quantity::length,
            .fallback = 0.0,
            .low = 0.0,
            .high = 20.0,
            .meaning = "how far it is out when the job begins"};
  }

  static Piston from(const Values& v, double stroke, bool with_spring) {
    return {.stroke = stroke,
            .dry = v["friction"],
            .dry_share = v["seal_friction"],
            .creep_speed = v["creep_speed"],
            .damping = v["damping"],
            .preload = with_spring ? v["spring_preload"] : 0.0,
            .rate = with_spring ? v["spring_rate"] : 0.0,
            .stop_stiffness = v["stop_stiffness"]};
  }

  double stop_damping() const { return stop_stiffness * si::ms; }

  template <class T, class P>
  T rub(const MotionHere<T>& body, const P& pressing) const {
    return rubbing(T(dry + dry_share * pressing), body.speed, creep_speed, damping);
  }
  /// Force of spring and stops on the piston, positive extends.
  template <class T>
  T ends(const MotionHere<T>& body) const {
    return contact(T(-body.position), T(-body.speed), stop_stiffness, stop_damping()) -
           contact(T(body.position - stroke), body.speed, stop_stiffness, stop_damping()) -
           (preload + rate * body.position);
  }
  /// Values that turn positive as the piston meets the end of its stroke, and as it comes fully in.
  std::array<double, 2> at_ends(double position) const { return {position - stroke, -position}; }
  /// Heat made in the stops, W.
  double stop_heat(const MotionHere<double>& body) const {
    return contact_heat(-body.position, -body.speed, stop_stiffness, stop_damping()) +
           contact_heat(body.position - stroke, body.speed, stop_stiffness, stop_damping());
  }
  /// Energy in spring and stops, J.
  double stored(double position) const {
    const double deep = std::max({-position, position - stroke, 0.0});
    return preload * position + 0.5 * rate * position * position + 0.5 * stop_stiffness * deep * deep;
  }
  static std::vector<Mismatch> check(const Values& v) {
    if (v["start_position"] <= v["stroke"]) return {};
    return {{"start_position",
             "it would start further out than its stroke reaches; start_position must lie within it"}};
  }
};

}  // namespace poise
