// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/actuator_care.hpp"
#include "parts/rotating.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Fixed-displacement motor for both directions, with its load on the shaft.
struct HydraulicMotor : RoomDefaults {
  static constexpr std::array<std::string_view, 2> drains{"internal", "external"};
  static constexpr std::array<std::string_view, 2> loads{"against_turning", "backwards"};
  static constexpr About about{
      .kind = "hydraulic_motor",
      .sentence = "Motor that oil turns: from A to B forwards, from B to A backwards.",
      .law =
          "Q_A→B = displacement·n + (1 − drain_share)·k·(p_A − p_B); drain Q = drain_share·k·(p − p_L) from "
          "A and "
          "from B; k = displacement·rated_speed·(1/volumetric_efficiency − 1 + wear)/rated_pressure; torque "
          "= "
          "displacement·(p_A − p_B)/2π − friction, which at the rated pressure is (1 − "
          "mechanical_efficiency)·displacement·rated_pressure/2π; inertia·dω/dt = torque − load",
      .source = "volumetric and torque losses after W. E. Wilson, Trans. ASME 68 (1946) 115 (from memory)",
      .role = Role::actuator,
      .ramp = "change_time",
      .beside = "{displacement}\n[{note}]"};
  static constexpr std::array parameters{
      shafts::displacement("oil taken per revolution"),
      shafts::efficiency("volumetric_efficiency",
                         "displacement times speed over flow taken, at rated speed and pressure", 0.93,
                         common::loss_up_to_twice),
      shafts::efficiency("mechanical_efficiency",
                         "torque given over torque without losses, at the rated pressure", 0.9),
      Parameter{.name = "rated_pressure",
                .quantity = Quantity::pressure,
                .low = 1 * si::bar,
                .high = 1000 * si::bar,
                .meaning = "highest continuous pressure",
                .source = "the motor's datasheet"},
      shafts::rated_speed(),
      shafts::idle_share(),
      shafts::wear(),
      Parameter{.name = "drain",
                .fallback = 1.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "where its case leaks to: back into its lines, or a drain line of its own at L",
                .words = drains},
      Parameter{.name = "drain_share",
                .quantity = Quantity::share,
                .fallback = 0.5,
                .low = 0.0,
                .high = 1.0,
                .meaning = "share of the leakage that goes to the drain, with an external one"},
      Parameter{.name = "load_torque",
                .quantity = Quantity::torque,
                .fallback = 0.0,
                .low = -1e6,
                .high = 1e6,
                .meaning = "torque that its work takes",
                .set_by_steps = true,
                .tolerance = 0.05},
      Parameter{
          .name = "load",
          .fallback = 0.0,
          .low = 0.0,
          .high = 1.0,
          .meaning =
              "whether the load torque acts against any turning (cutting, rubbing) or always backwards (a "
              "hanging load on a drum)",
          .words = loads},
      Parameter{.name = "change_time",
                .quantity = Quantity::time,
                .fallback = 0.1,
                .low = 0.0,
                .high = 1000.0,
                .meaning = "time that a change of the load torque takes"},
      shafts::inertia(0.01, "of its rotor and of what it turns"),
      common::port_volume(10 * si::cm3),
  };
  static constexpr std::array ports{Port{.name = "A", .meaning = "inlet for turning forwards"},
                                    Port{.name = "B", .meaning = "inlet for turning backwards"},
                                    Port{.name = "L",
                                         .meaning = "case drain, a line of its own to tank",
                                         .needed_if_parameter = "drain",
                                         .needed_if_word = 1,
                                         .pilot = true},
                                    shafts::port("what it turns", true)};
  static constexpr std::array outputs{shafts::torque, shafts::speed, shafts::power,
                                      Output{"case_flow", Quantity::flow, "leakage to the case drain"}};
  static constexpr std::array faults{
      Fault{.name = "motor is worn",
            .sentence = "slips more: slower under load, creeps when shut in, hot case drain",
            .parameter = "wear",
            .change = Fault::Change::becomes,
            .slight = 0.1,
            .grave = 0.5},
      Fault{.name = "motor runs heavily",
            .sentence = "bearings or pistons rub: higher pressure for the same work, starts with a jerk",
            .parameter = "mechanical_efficiency",
            .slight = 0.95,
            .grave = 0.7},
  };
  static constexpr std::array rules{

      Rule{.name = "motor does not hold",
           .sentence = "A shut-in motor creeps by its leakage: a hanging load needs a brake."},
  };
  static constexpr std::array care{upkeep::motor_leak, upkeep::mounting_tight};
  static constexpr auto sketch = [](bool drained) {
    using namespace stroke;
    using namespace pieces;
    Sketch s;
    s.add(circle(0, 0, 3), filled(0, -1.37, 1.5, 90), filled(0, 1.37, 1.5, -90), leads(0, 0),
          shaft(3, 4.75, 0), turn_arrow(4, 0), box(4.75, -0.5, 5, 0.5));
    if (drained) s.add(pilot(-2, -2.25, -2, -4));
    return s;
  };
  static constexpr auto symbol = sketch(true);
  static constexpr std::array anchors{Anchor{0, -4}, Anchor{0, 4}, Anchor{-2, -4}, Anchor{5, 0}};
  static std::vector<Stroke> drawn(const Values& v, const Pose&) {
    return pieces::strokes(sketch(v.word("drain") == 1));
  }
  static constexpr int oil_ports = 3, motion_ports = 1, inputs = 1;

  Rotor rotor;
  Leak across, to_drain;
  bool backwards;
  double inertia, volume;

  HydraulicMotor(const Values& v, const Oil&)
      : rotor(v, 1.0 - v["mechanical_efficiency"]),
        backwards(v.word("load") == 1),
        inertia(v["inertia"]),
        volume(v["port_volume"]) {
    const double slip =
        v["displacement"] * v["rated_speed"] * (1.0 / v["volumetric_efficiency"] - 1.0 + v["wear"]);
    const double drained = v.word("drain") == 1 ? v["drain_share"] : 0.0;
    across = Leak::at((1.0 - drained) * slip, v["rated_pressure"]);
    to_drain = Leak::at(drained * slip, v["rated_pressure"]);
  }

  template <class T>
  T load(const Here<HydraulicMotor, T>& here) const {
    const double torque = here.input[0].now();
    return backwards ? T(torque) : rubbing(T(torque), here.body[0].speed, shafts::creep, 0.0);
  }
  template <class T>
  Answer<HydraulicMotor, T> law(const Here<HydraulicMotor, T>& here) const {
    const auto& [a, b, l] = here.oil;
    const T drop = a.pressure - b.pressure, speed = here.body[0].speed;
    const T rub = rotor.rub(drop, speed), taken = load(here);
    const T through = mass_flow(T(rotor.per_angle * speed), a, b) + mass_flow(across.flow(drop), a, b);
    const T from_a = mass_flow(to_drain.flow(T(a.pressure - l.pressure)), a, l);
    const T from_b = mass_flow(to_drain.flow(T(b.pressure - l.pressure)), b, l);
    Answer<HydraulicMotor, T> answer;
    answer.inflow = {through + from_a, from_b - through, -from_a - from_b};
    answer.force[0] = rotor.per_angle * drop - rub - taken;
    answer.friction = value_of(rub) * value_of(speed);
    answer.delivered = value_of(taken) * value_of(speed);
    answer.gained = rotor.per_angle * value_of(drop) * value_of(speed);
    return answer;
  }
  template <class H>
  std::array<double, 4> report(const H& here) const {
    const double drop = here.oil[0].pressure - here.oil[1].pressure, speed = here.body[0].speed;
    const double torque = rotor.per_angle * drop - rotor.rub(drop, speed);
    const double drained = to_drain.flow(here.oil[0].pressure - here.oil[2].pressure) +
                           to_drain.flow(here.oil[1].pressure - here.oil[2].pressure);
    return {torque, speed / one_turn, torque * speed, drained};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
  Body body(int) const { return {.mass = inertia}; }
};

}  // namespace poise
