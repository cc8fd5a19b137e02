// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/drive_care.hpp"
#include "parts/pump_lines.hpp"
#include "parts/rotating.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Fixed-displacement pump on a shaft of its own: it turns as fast as what drives it and brakes it.
struct ShaftPump : RoomDefaults {
  static constexpr About about{
      .kind = "shaft_pump",
      .sentence =
          "Fixed-displacement pump on a shaft: several may share one motor, and all slow down with it.",
      .law =
          "w_P = density_S·(displacement·n − k·Δp), k = displacement·rated_speed·(1 − volumetric_efficiency "
          "+ "
          "wear)/rated_pressure; torque on the shaft = −displacement·Δp/2π − friction, which at the rated "
          "pressure is "
          "(1/mechanical_efficiency − 1)·displacement·rated_pressure/2π",
      .source = "volumetric and torque losses after W. E. Wilson, Trans. ASME 68 (1946) 115 (from memory)",
      .role = Role::source,
      .beside = "{displacement}"};
  static constexpr std::array parameters{
      shafts::displacement("oil moved per revolution; positive turning delivers from S to P"),
      shafts::efficiency("volumetric_efficiency",
                         "delivery over displacement times speed, at rated speed and pressure", 0.93,
                         common::loss_up_to_twice),
      shafts::efficiency("mechanical_efficiency",
                         "torque without losses over torque taken, at the rated pressure", 0.9),
      pumps::rated_pressure(),
      shafts::rated_speed(),
      shafts::idle_share(),
      shafts::wear(),
      shafts::inertia(5e-4, "of its rotor"),
      common::port_volume(5 * si::cm3),
  };
  static constexpr std::array ports{pumps::suction, pumps::outlet, shafts::port("what drives it", false)};
  static constexpr std::array outputs{
      Output{"torque", Quantity::torque, "torque that it takes from the shaft"},
      Output{"shaft_power", Quantity::power, "power that it takes from the shaft"}, pumps::delivery};
  static constexpr std::array faults{
      pumps::worn,
      Fault{.name = "pump runs heavily",
            .sentence = "bearings or pistons rub: the motor is loaded more and the oil gets warmer",
            .parameter = "mechanical_efficiency",
            .slight = 0.95,
            .grave = 0.75},
  };
  static constexpr std::array care{upkeep::pump_noise, upkeep::pump_test, upkeep::shaft_coupling};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(pump_circle(0, 0), leads(0, 0), shaft(3, 4.75, 0), turn_arrow(4, 0), box(4.75, -0.5, 5, 0.5));
  }();
  static constexpr std::array anchors{Anchor{0, -4}, Anchor{0, 4}, Anchor{5, 0}};
  static constexpr int oil_ports = 2, motion_ports = 1;

  Rotor rotor;
  double slip, inertia, volume;

  ShaftPump(const Values& v, const Oil&)
      : rotor(v, 1.0 / v["mechanical_efficiency"] - 1.0),
        slip(v["displacement"] * v["rated_speed"] * (1.0 - v["volumetric_efficiency"] + v["wear"]) /
             v["rated_pressure"]),
        inertia(v["inertia"]),
        volume(v["port_volume"]) {}

  template <class T>
  T delivery(const Here<ShaftPump, T>& here) const {
    return rotor.per_angle * here.body[0].speed - slip * (here.oil[1].pressure - here.oil[0].pressure);
  }
  template <class T>
  Answer<ShaftPump, T> law(const Here<ShaftPump, T>& here) const {
    const T rise = here.oil[1].pressure - here.oil[0].pressure;
    const T rub = rotor.rub(rise, here.body[0].speed);
    const double speed = value_of(here.body[0].speed);
    Answer<ShaftPump, T> a;
    a.inflow[0] = mass_flow(delivery(here), here.oil[0], here.oil[1]);
    a.inflow[1] = -a.inflow[0];
    a.force[0] = -rotor.per_angle * rise - rub;
    a.friction = value_of(rub) * speed;
    a.gained = -rotor.per_angle * value_of(rise) * speed;
    return a;
  }
  template <class H>
  std::array<double, 3> report(const H& here) const {
    const double rise = here.oil[1].pressure - here.oil[0].pressure, speed = here.body[0].speed;
    const double torque = rotor.per_angle * rise + rotor.rub(rise, speed);
    return {torque, torque * speed, delivery(here)};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
  Body body(int) const { return {.mass = inertia}; }
};

}  // namespace poise
