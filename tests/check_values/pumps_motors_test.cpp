// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Section 13 of the check values: pumps and motors. The pump of the house takes a displacement; those of the
// sources' pistons and gears are worked out from their measures.
#include "check_values/source.hpp"

namespace poise::check {
namespace {

struct PumpData {
  double displacement, speed;
  double volumetric = 1.0, mechanical = 1.0;
  double pressure = 100 * si::bar;  ///< at which it is rated and runs
};
struct Running {
  double delivery, power;
  double output(const PumpData& p) const { return delivery * p.pressure; }
};
Running running(const PumpData& p) {
  Bench b;
  b.plan.oil = plain_oil();
  b.part("T1", "reservoir", {{"usable_oil", 1.0}});
  b.part("P1", "pump",
         {{"displacement", p.displacement},
          {"speed", p.speed},
          {"volumetric_efficiency", p.volumetric},
          {"mechanical_efficiency", p.mechanical},
          {"rated_pressure", p.pressure}});
  add_dead_weight(b, "W1", p.pressure);
  b.join({"T1.T", "P1.S"});
  b.join({"P1.P", "W1.A"});
  b.step("run", 3.0, {{"P1", "running", 1.0, 0.5}});
  const Trace t = b.run({"P1.delivery", "P1.shaft_power"});
  return {last(t, "P1.delivery"), last(t, "P1.shaft_power")};
}

// PU-03. J. Sullivan, Fluid Power: Theory and Applications, 4th ed., Reston, Example 7.2, p. 137 (known: N).
TEST(check_values, PU_03_volumetric_efficiency_of_a_pump_of_3_75_cubic_inches) {
  const double share = argument_for(52 * gpm, 0.8, 1.0, [](double ev) {
    return running({.displacement = 3.75 * in3, .speed = 3300 * rpm, .volumetric = ev}).delivery;
  });
  EXPECT_VALUE(share * 100, 97.06666667, 97.067, 0.05);
}

// PU-04. Sullivan, Example 7.3, p. 137 (known: N).
TEST(check_values, PU_04_mechanical_efficiency_and_friction_of_a_pump_that_takes_10_hp) {
  PumpData p{.displacement = 50 * si::cm3, .speed = 1450 * rpm, .volumetric = 0.94};
  p.mechanical = argument_for(0.87, 0.85, 0.99, [&](double em) {
    PumpData trial = p;
    trial.mechanical = em;
    const Running r = running(trial);
    return r.output(trial) / r.power;
  });
  EXPECT_VALUE(p.mechanical * 100, 92.55319149, 92.55, 0.05);
  PumpData without_friction = p;
  without_friction.mechanical = 1.0;
  const double lost = 1.0 - running(without_friction).power / running(p).power;
  EXPECT_VALUE(lost * 10, 0.7446808511, 0.745, 0.1);  // hp of 10 hp
}

// PU-05. Sullivan, Example 7.4, p. 150 (known: N).
TEST(check_values, PU_05_flow_of_a_nine_piston_pump) {
  const double displacement = 9 * circle(0.5 * inch) * 0.75 * inch;
  EXPECT_VALUE(running({.displacement = displacement, .speed = 3000 * rpm}).delivery / gpm, 17.21246, 17.212,
               0.05);
}

// PU-07. Sullivan, Example 2.6, p. 28 (known: N). Its displacement is that of one turn in one second.
TEST(check_values, PU_07_displacement_and_flow_of_a_five_piston_pump) {
  const double displacement = 5 * circle(1.125 * inch) * 1 * inch;
  EXPECT_VALUE(running({.displacement = displacement, .speed = 1.0}).delivery / in3, 4.970097753, 4.97, 0.05);
  EXPECT_VALUE(running({.displacement = displacement, .speed = 1200 * rpm}).delivery / gpm, 25.81869, 25.81,
               0.05);
}

double gear_displacement(double outer, double inner, double width) {
  return (circle(outer) - circle(inner)) * width;
}

// PU-08. A. Esposito, Fluid Power with Applications, 6th ed., 2005, Example 5-1, p. 167 (known: N).
TEST(check_values, PU_08_volumetric_efficiency_of_a_gear_pump) {
  const double share = argument_for(28 * gpm, 0.8, 1.0, [](double ev) {
    return running({.displacement = gear_displacement(3 * inch, 2 * inch, inch),
                    .speed = 1800 * rpm,
                    .volumetric = ev})
        .delivery;
  });
  EXPECT_VALUE(share * 100, 91.50348195, 91.5, 0.05);
}

// PU-09. Esposito, Example 5-2, p. 167 (known: N).
TEST(check_values, PU_09_flow_of_a_gear_pump) {
  const Running r = running({.displacement = gear_displacement(75 * si::mm, 50 * si::mm, 25 * si::mm),
                             .speed = 1000 * rpm,
                             .volumetric = 0.9});
  EXPECT_VALUE(r.delivery / si::litre_per_minute, 55.22330836, 55.3, 0.2);
}

// PU-11. Esposito, Examples 5-6 and 5-7, pp. 182-183 (known: N): each piston strokes by the circle they stand
// on times the tangent of the offset.
TEST(check_values, PU_11_offset_and_flow_of_an_axial_piston_pump) {
  const auto delivery = [](double tangent) {
    return running({.displacement = 9 * circle(0.5 * inch) * 5 * inch * tangent,
                    .speed = 3000 * rpm,
                    .volumetric = 0.95})
        .delivery;
  };
  EXPECT_VALUE(argument_for(16 * gpm, 0.1, 0.2, delivery), 0.1467725024, 0.147, 0.2);
  const double displacement = 9 * circle(15 * si::mm) * 125 * si::mm * std::tan(10 * si::degree);
  const Running r = running({.displacement = displacement, .speed = 1000 * rpm, .volumetric = 0.94});
  EXPECT_VALUE(r.delivery / si::litre, 0.5491870605, 0.55, 0.2);
}

// PU-12. Esposito, Example 5-8, p. 190 (known: N): 900 in·lbf at the shaft.
TEST(check_values, PU_12_overall_efficiency_and_torque_of_a_pump_on_test) {
  const double per_second = 2 * std::numbers::pi * 1000 * rpm, measured = 900 * inch * lbf;
  PumpData p{.displacement = 5 * in3, .speed = 1000 * rpm, .pressure = 1000 * psi};
  const double torque = running(p).power / per_second;
  EXPECT_VALUE(torque / (inch * lbf), 795.7747155, 793, 0.4);
  p.volumetric = argument_for(20 * gpm, 0.8, 1.0, [&](double ev) {
    PumpData trial = p;
    trial.volumetric = ev;
    return running(trial).delivery;
  });
  p.mechanical = argument_for(measured, 0.8, 1.0, [&](double em) {
    PumpData trial = p;
    trial.mechanical = em;
    return running(trial).power / per_second;
  });
  const Running r = running(p);
  EXPECT_VALUE(r.output(p) / r.power * 100, 81.69953745, 81.6, 0.15);
}

// PU-13. Esposito, Example 7-5, p. 267 (known: N): the torque at which 0.6 L/s stand at 70 bar.
TEST(check_values, PU_13_speed_torque_and_power_of_a_motor) {
  const auto run = [](double torque) {
    Bench b;
    b.plan.oil = plain_oil();
    add_pump(b, 0.6 * si::litre);
    b.part("M1", "hydraulic_motor",
           {{"displacement", 0.082 * si::litre},
            {"volumetric_efficiency", 1.0},
            {"mechanical_efficiency", 1.0},
            {"rated_pressure", 100 * si::bar},
            {"load_torque", torque},
            {"inertia", 0.001}});
    b.join({"P1.P", "M1.A"});
    b.join({"M1.B", "M1.L", "T1.T"});
    b.step("run", 3.0, {{"P1", "running", 1.0, 0.5}});
    return b.run({"M1.A.pressure", "M1.speed_of_rotation", "M1.power"});
  };
  const double torque = argument_for(70 * si::bar, 80.0, 100.0,
                                     [&](double m) { return mean(run(m), "M1.A.pressure", 1.0, 3.0); });
  const Trace t = run(torque);
  EXPECT_VALUE(mean(t, "M1.speed_of_rotation", 1.0, 3.0) / rpm, 439.0243902, 439, 0.05);
  EXPECT_VALUE(torque, 91.35493733, 91.4, 0.1);
  EXPECT_VALUE(mean(t, "M1.power", 1.0, 3.0), 4200.0, 4200.0, 0.05);
}

}  // namespace
}  // namespace poise::check
