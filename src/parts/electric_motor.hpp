// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/drive_care.hpp"
#include "parts/pump_lines.hpp"
#include "parts/rotating.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Three-phase squirrel-cage motor: torque over slip by Kloss, so that it slows under load and stalls beyond
/// its breakdown torque.
struct ElectricMotor : RoomDefaults {
  static constexpr About about{
      .kind = "electric_motor",
      .sentence =
          "Three-phase motor that drives one or several pumps on one shaft: it slows a little under load and "
          "stalls when overloaded.",
      .law =
          "s = 1 − speed/synchronous_speed; torque = running·(2·T_b/(s/s_b + s_b/s) + T_x·s³), T_b = "
          "breakdown_ratio·T_rated, s_b so that the rated torque comes at the rated speed, T_x so that the "
          "torque "
          "at rest is starting_ratio·T_rated",
      .source =
          "M. Kloss, Archiv für Elektrotechnik 5 (1916) 59 (from memory), stator resistance left out; the "
          "term "
          "in s³ is ours, for the deep bars that help at the start",
      .ramp = "contact_time",
      .beside = "{rated_power}\n{rated_speed}"};
  static constexpr std::array parameters{
      Parameter{.name = "rated_power",
                .quantity = Quantity::power,
                .low = 10.0,
                .high = 1e6,
                .meaning = "power at the shaft at rated speed",
                .source = "the motor's plate"},
      Parameter{.name = "synchronous_speed",
                .quantity = Quantity::rotation,
                .fallback = 1500 * si::per_minute,
                .low = 100 * si::per_minute,
                .high = 6000 * si::per_minute,
                .meaning = "speed of the field: 1500 1/min for four poles at 50 Hz"},
      Parameter{.name = "rated_speed",
                .quantity = Quantity::rotation,
                .fallback = 1450 * si::per_minute,
                .low = 80 * si::per_minute,
                .high = 5990 * si::per_minute,
                .meaning = "speed at rated power",
                .source = "the motor's plate"},
      Parameter{.name = "breakdown_ratio",
                .fallback = 2.5,
                .low = 1.2,
                .high = 5.0,
                .meaning = "highest torque over rated torque",
                .source = "the motor's datasheet; default common practice"},
      Parameter{.name = "starting_ratio",
                .fallback = 2.0,
                .low = 0.3,
                .high = 5.0,
                .meaning = "torque at rest over rated torque",
                .source = "the motor's datasheet; default common practice"},
      shafts::inertia(0.01, "of its rotor and coupling"),
      Parameter{.name = "friction",
                .quantity = Quantity::torque,
                .fallback = 0.05,
                .low = 0.0,
                .high = 100.0,
                .meaning = "of its bearings and fan"},
      pumps::running(),
      Parameter{.name = "contact_time",
                .quantity = Quantity::time,
                .fallback = 20 * si::ms,
                .low = 0.0,
                .high = 60.0,
                .meaning = "time in which its torque comes and goes; longer with a soft starter"},
  };
  static constexpr std::array ports{shafts::port("what it drives", true)};
  static constexpr std::array outputs{
      shafts::torque, shafts::power, shafts::speed,
      Output{"motor_load", Quantity::share, "power as a share of the rated power"}};
  static constexpr std::array happenings{Happening{"is loaded beyond its breakdown torque and stalls"}};
  static constexpr std::array faults{
      Fault{
          .name = "voltage is low",
          .sentence =
              "torque falls with the square of the voltage: slower, and it stalls or does not start where it "
              "did",
          .parameter = "breakdown_ratio",
          .slight = 0.85,
          .grave = 0.5},
      Fault{.name = "wrong motor",
            .sentence = "two poles too many: every motion takes half as long again",
            .parameter = "synchronous_speed",
            .slight = 0.95,
            .grave = 0.667,
            .comes = Comes::after_work},
  };
  static constexpr std::array care{upkeep::motor_current, upkeep::shaft_coupling};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(pieces::electric_motor(0, 0), shaft(-4.75, -3, 0), box(-5, -0.5, -4.75, 0.5));
  }();
  static constexpr std::array anchors{Anchor{-5, 0}};
  static constexpr int oil_ports = 0, motion_ports = 1, inputs = 1;

  double rated_power, synchronous, breakdown, breakdown_slip, extra, inertia, friction;

  ElectricMotor(const Values& v, const Oil&)
      : rated_power(v["rated_power"]),
        synchronous(one_turn * v["synchronous_speed"]),
        inertia(v["inertia"]),
        friction(v["friction"]) {
    const double rated_torque = rated_power / (one_turn * v["rated_speed"]), ratio = v["breakdown_ratio"];
    const double rated_slip = 1.0 - v["rated_speed"] / v["synchronous_speed"];
    breakdown = ratio * rated_torque;
    breakdown_slip = rated_slip * (ratio + std::sqrt(ratio * ratio - 1.0));
    extra = v["starting_ratio"] * rated_torque - kloss(1.0);
  }
  static std::vector<Mismatch> check(const Values& v);

  template <class T>
  T kloss(const T& slip) const {
    return 2.0 * breakdown * breakdown_slip * slip / (slip * slip + breakdown_slip * breakdown_slip);
  }
  template <class T>
  T pull(const MotionHere<T>& shaft, const Input& running) const {
    const T slip = 1.0 - shaft.speed * (1.0 / synchronous);
    T torque = kloss(slip);
    if (slip > 0.0) torque = torque + (slip < 1.0 ? T(extra * slip * slip * slip) : T(extra));
    return running.now() * torque;
  }
  template <class T>
  Answer<ElectricMotor, T> law(const Here<ElectricMotor, T>& here) const {
    const T torque = pull(here.body[0], here.input[0]);
    const T rub = rubbing(T(friction), here.body[0].speed, shafts::creep, 0.0);
    const double speed = value_of(here.body[0].speed);
    Answer<ElectricMotor, T> a;
    a.force[0] = torque - rub;
    a.friction = value_of(rub) * speed;
    a.shaft = value_of(torque) * speed;
    a.gained = a.shaft;
    return a;
  }
  template <class H>
  std::array<double, 4> report(const H& here) const {
    const double torque = pull(here.body[0], here.input[0]), power = torque * here.body[0].speed;
    return {torque, power, here.body[0].speed / one_turn, power / rated_power};
  }
  template <class H>
  std::array<double, 1> passing(const H& here) const {
    // Running down through the breakdown slip is a stall; running up through it is a start.
    const double slip = 1.0 - here.body[0].speed / synchronous;
    return {here.input[0].now() < 0.5 ? -1.0 : 1e-4 * (slip - breakdown_slip)};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {}; }
  Body body(int) const { return {.mass = inertia, .start = 0.0}; }
};

}  // namespace poise
