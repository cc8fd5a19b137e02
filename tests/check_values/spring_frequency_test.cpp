// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Section 17 of the check values: a mass on the oil of a cylinder.
#include "check_values/source.hpp"

namespace poise::check {
namespace {

struct Servo {
  double area, mass, modulus;
  double each_side;  ///< m3 of oil under compression on each side of the piston
};

/// Angular frequency with which the mass rings when it is knocked, both sides shut at 100 bar.
double ringing(const Servo& s) {
  const double bore = diameter_of(s.area), stroke = 0.4 * s.each_side / s.area, port = 0.01 * si::cm3;
  Bench b;
  b.plan.oil = plain_oil();
  b.plan.oil.modulus = s.modulus;
  add_dead_weight(b, "W1", 100 * si::bar);
  b.set("W1", "damping", 1e5);
  add_cylinder(b, "C1", bore, 1e-6, stroke, 0.5 * stroke);
  b.set("C1", "moving_mass", 0.01);
  b.set("C1", "dead_volume", s.each_side - 0.5 * stroke * s.area - port);
  b.part("M1", "mass", {{"mass", s.mass}, {"slope", 0.0}});
  b.part("F1", "force", {{"force", 0.0}});
  for (const char* tag : {"V1", "V2"}) {
    b.part(tag, "shut_off",
           {{"rated_flow", 10 * si::litre_per_minute}, {"position", 1.0}, {"port_volume", port}});
  }
  b.join({"W1.A", "V1.A", "V2.A"});
  b.join({"V1.B", "C1.A"});
  b.join({"V2.B", "C1.B"});
  b.join({"C1.rod", "M1.rod", "F1.rod"});
  b.step("shut", 0.5, {{"V1", "position", 0.0, 0.1}, {"V2", "position", 0.0, 0.1}});
  b.step("knock", 0.5, {{"F1", "force", 5 * si::kN}});
  const Trace t = b.run({"C1.position"}, {.tolerances = solve::Tolerances{}.tighter(100)});
  return 2 * std::numbers::pi * frequency(t, "C1.position", t.steps[1].begin, t.steps[1].end);
}

/// Way by which a servo misses, by the rule of the source: the dead band's current through the gains over a
/// third of the frequency.
double repeatable_error(double dead_band, double valve_gain, double cylinder_gain, double frequency) {
  return dead_band * valve_gain * cylinder_gain / (frequency / 3.0);
}

// DY-01. A. Esposito, Fluid Power with Applications, 6th ed., 2005, Example 17-1, p. 610 (known: N). Its
// volume is that under compression, here on each side.
TEST(check_values, DY_01_repeatable_error_of_a_servo_cylinder) {
  const double w =
      ringing({.area = 5 * in2, .mass = 2.59 * lbf / inch, .modulus = 175000 * psi, .each_side = 50 * in3});
  EXPECT_VALUE(repeatable_error(4.0, 0.15, 0.20, w), 0.001384948451, 0.00138, 0.4);  // in
}

// DY-02 and DY-03. Esposito, Example 17-2, p. 610 (known: N; DY-03 I): the same in SI. With the number put in
// as the volume of both sides together, the frequency is √2 times as high.
TEST(check_values, DY_02_repeatable_error_in_si) {
  const double w = ringing({.area = 32.3e-4, .mass = 450, .modulus = 1200e6, .each_side = 819e-6});
  EXPECT_VALUE(repeatable_error(4.0, 2.46, 0.031, w), 0.003510897185, 0.00352, 0.3);  // cm
}
TEST(check_values, DY_03_frequency_with_the_volume_of_one_side_and_of_both) {
  Servo s{.area = 32.3e-4, .mass = 450, .modulus = 1200e6, .each_side = 819e-6};
  EXPECT_VALUE(ringing(s), 260.6513241, 260.7, 0.05);
  s.each_side *= 0.5;
  EXPECT_VALUE(ringing(s), 368.6166375, 368.6, 0.05);
}

}  // namespace
}  // namespace poise::check
