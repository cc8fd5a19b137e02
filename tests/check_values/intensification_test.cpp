// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Section 7 of the check values: regeneration, intensification, meter-in and meter-out.
#include "check_values/source.hpp"

namespace poise::check {
namespace {

constexpr double wide = 4000 * si::litre_per_minute, hardly = 0.05 * si::bar;

/// A cylinder on a directional valve that joins P, A and B in its centre, and P to B and A to tank in b.
enum class Way { regenerative, back };
Bench regenerative_circuit(double area, double rod_area, double out) {
  Bench b;
  b.plan.oil = plain_oil();
  b.part("V1", "directional_4_3", {{"centre", 4.0}, {"rated_flow", wide}, {"pressure_drop", hardly}});
  add_cylinder(b, "C1", diameter_of(area), diameter_of(rod_area), 4.0, out);
  b.set("C1", "moving_mass", 0.01);
  b.join({"V1.A", "C1.A"});
  b.join({"V1.B", "C1.B"});
  return b;
}
struct Moving {
  double speed, power;
};
Moving moving(double area, double rod_area, double flow, double force, Way way) {
  Bench b = regenerative_circuit(area, rod_area, way == Way::back ? 3.5 : 0.5);
  b.part("F1", "force", {{"force", force}});
  add_pump(b, flow);
  b.join({"V1.T", "T1.T"});
  b.join({"P1.P", "V1.P"});
  b.join({"C1.rod", "F1.rod"});
  b.set("C1", "damping", 50.0);
  b.set("V1", "position", way == Way::back ? 2.0 : 0.0);
  b.step("run", 3.0, {{"P1", "running", 1.0, 0.5}});
  const Trace t = b.run({"C1.speed", "P1.shaft_power"});
  return {std::abs(mean(t, "C1.speed", 1.0, 3.0)), mean(t, "P1.shaft_power", 1.0, 3.0)};
}
/// Force at the end of the way, under a steady pressure at P.
double standing(double area, double rod_area, double pressure, Way way) {
  Bench b = regenerative_circuit(area, rod_area, way == Way::back ? 0.0 : 0.2);
  b.part("T1", "reservoir", {{"usable_oil", 1.0}});
  add_dead_weight(b, "W1", pressure);
  b.part("L1", "spring", {{"rate", 1e9}, {"free_travel", 0.2}});
  b.join({"V1.T", "T1.T"});
  b.join({"W1.A", "V1.P"});
  b.join({"C1.rod", "L1.rod"});
  b.set("V1", "position", way == Way::back ? 2.0 : 0.0);
  b.step("press", 2.0);
  return std::abs(last(b.run({"C1.force"}), "C1.force"));
}

// RG-01. A. Esposito, Fluid Power with Applications, 6th ed., 2005, Example 9-1, p. 331 (known: N).
TEST(check_values, RG_01_regenerative_circuit_of_25_and_7_square_inches) {
  const double area = 25 * in2, rod = 7 * in2;
  const double push = standing(area, rod, 1000 * psi, Way::regenerative);
  const Moving out = moving(area, rod, 20 * gpm, push, Way::regenerative);
  EXPECT_VALUE(out.speed / inch, 11.0, 11.0, 0.05);
  EXPECT_VALUE(push / lbf, 7000.0, 7000.0, 0.05);
  EXPECT_VALUE(out.power / horsepower, 11.66666667, 11.7, 0.35);
  EXPECT_VALUE(moving(area, rod, 20 * gpm, 0.0, Way::back).speed / inch, 4.277777778, 4.28, 0.1);
  EXPECT_VALUE(standing(area, rod, 1000 * psi, Way::back) / lbf, 18000.0, 18000.0, 0.05);
}

// RG-02. Lecture notes "Regenerative circuit", Scribd document 238060030 (known: T).
TEST(check_values, RG_02_a_2_to_1_cylinder_is_as_fast_out_as_in) {
  const double out = moving(2 * in2, 1 * in2, 2 * gpm, 0.0, Way::regenerative).speed;
  EXPECT_VALUE(out / moving(2 * in2, 1 * in2, 2 * gpm, 0.0, Way::back).speed, 1.0, 1.0, 0.05);
}

/// Cv of a hole of this area as a needle valve has it: US gpm of water at 1 psi.
double cv(double hole) {
  const Orifice needle{.area = hole};
  return needle.flow(OilHere<double>{psi, water}, OilHere<double>{0.0, water}, 1.0) / gpm;
}

// MI-01. Esposito, Example 8-6, p. 304 (known: N): the needle valve on the rod side with which the cylinder
// runs at 10 in/s.
TEST(check_values, MI_01_meter_out_needle_valve_for_10_inches_per_second) {
  const auto speed = [](double hole) {
    Bench b;
    b.plan.oil = thin_oil(0.9 * water);
    b.part("T1", "reservoir", {{"usable_oil", 1.0}});
    add_dead_weight(b, "W1", 500 * psi);
    add_cylinder(b, "C1", diameter_of(3.14 * in2), diameter_of(0.79 * in2), 4.0, 0.5);
    b.set("C1", "moving_mass", 0.01);
    b.set("C1", "damping", 1.0);
    b.part("F1", "force", {{"force", 1000 * lbf}});
    b.part("N1", "needle", {{"bore", diameter_of(hole)}, {"turns", 0.0}});
    b.join({"W1.A", "C1.A"});
    b.join({"C1.B", "N1.A"});
    b.join({"N1.B", "T1.T"});
    b.join({"C1.rod", "F1.rod"});
    b.step("run", 3.0, {{"N1", "turns", 8.0, 0.5}});
    return last(b.run({"C1.speed"}), "C1.speed");
  };
  const double hole = argument_for(10 * inch, 5 * si::mm2, 15 * si::mm2, speed);
  EXPECT_VALUE(cv(hole), 0.3718132931, 0.37, 0.55);
}

// MI-02. Esposito, Example 9-4, p. 347 (known: N).
TEST(check_values, MI_02_meter_in_speed_through_a_needle_of_cv_1) {
  Bench b;
  b.plan.oil = thin_oil(0.9 * water);
  add_dead_weight(b, "W1", 1400 * psi);
  const double hole = argument_for(1.0, 5 * si::mm2, 50 * si::mm2, cv);
  b.part("N1", "needle", {{"bore", diameter_of(hole)}, {"turns", 0.0}});
  add_ram(b, "C1", 3.14 * in2, 4.0, 0.5);
  b.set("C1", "moving_mass", 0.01);
  b.set("C1", "damping", 1.0);
  b.part("F1", "force", {{"force", 4000 * lbf}});
  b.join({"W1.A", "N1.A"});
  b.join({"N1.B", "C1.A"});
  b.join({"C1.rod", "F1.rod"});
  b.step("run", 3.0, {{"N1", "turns", 8.0, 0.5}});
  EXPECT_VALUE(last(b.run({"C1.speed"}), "C1.speed") / inch, 14.51418304, 14.5, 0.15);
}

/// A single-stroke intensifier without friction.
void add_intensifier(Bench& b, double ratio, double plunger, double stroke) {
  b.part("I1", "intensifier",
         {{"ratio", ratio},
          {"plunger", plunger},
          {"stroke", stroke},
          {"return_chamber", 0.0},
          {"friction", 0.0},
          {"seal_friction", 0.0},
          {"damping", 0.0},
          {"moving_mass", 0.01}});
}

// MI-03. Esposito, Example 11-1, p. 409 (known: N): the pressure that it holds as 500 psi drive it, and the
// flow it gives.
TEST(check_values, MI_03_intensifier_of_5_to_1) {
  const auto run = [](double pressure) {
    Bench b;
    b.plan.oil = plain_oil();
    add_pump(b, 20 * gpm);
    add_dead_weight(b, "W1", pressure);
    add_intensifier(b, 5.0, 50 * si::mm, 1.0);
    b.join({"P1.P", "I1.A"});
    b.join({"I1.B", "W1.A"});
    b.step("press", 3.0, {{"P1", "running", 1.0, 0.5}});
    return b.run({"P1.P.pressure", "W1.speed"});
  };
  const double pressure = argument_for(500 * psi, 2000 * psi, 3000 * psi,
                                       [&](double p) { return mean(run(p), "P1.P.pressure", 1.0, 3.0); });
  EXPECT_VALUE(pressure / psi, 2500.0, 2500.0, 0.05);
  EXPECT_VALUE(mean(run(pressure), "W1.speed", 1.0, 3.0) * dead_weight_area / gpm, 4.0, 4.0, 0.05);
}

// MI-04. T. H. Wentzell, Machine Design, Cengage 2007, Example 10.2, p. 198 (known: N).
TEST(check_values, MI_04_air_over_oil_intensifier) {
  const double ratio = circle(4 * inch) / circle(1 * inch), ram = circle(3 * inch);
  Bench b;
  b.plan.oil = plain_oil();
  add_dead_weight(b, "W1", 100 * psi);
  add_intensifier(b, ratio, 1 * inch, 5 * inch);
  add_ram(b, "C1", ram, 1.0, 0.0);
  b.part("L1", "spring", {{"rate", 1e9}});
  b.join({"W1.A", "I1.A"});
  b.join({"I1.B", "C1.A"});
  b.join({"C1.rod", "L1.rod"});
  b.step("press", 2.0);
  const Trace still = b.run({"I1.B.pressure", "L1.force"});
  EXPECT_VALUE(last(still, "I1.B.pressure") / psi, 1600.0, 1600.0, 0.05);
  EXPECT_VALUE(last(still, "L1.force") / lbf, 11309.73355, 11309.73, 0.05);

  b.set("L1", "free_travel", 0.5);  // nothing in its way: it travels, slowly
  b.set("C1", "damping", 1e6);
  b.set("W1_weight", "force", 0.0);
  b.steps.clear();
  b.step("travel", 20.0, {{"W1_weight", "force", 100 * psi * dead_weight_area, 1.0}});
  const Trace t = b.run({"I1.position", "C1.position"});
  const double then = first_above(t, "I1.position", at(t, "I1.position", 0.0) + 4 * inch);
  const double way = at(t, "C1.position", then) - at(t, "C1.position", 0.0);
  EXPECT_VALUE(way / inch, 0.4444444444, 0.44, 1.1);
  EXPECT_VALUE(way * ram / in3, 3.141592654, 3.14, 0.1);
}

// MI-05. General principle; a trade text states the same in words (known: C).
TEST(check_values, MI_05_blocked_rod_side_of_a_2_to_1_cylinder_at_207_bar) {
  Bench b;
  add_dead_weight(b, "W1", 207 * si::bar);
  add_cylinder(b, "C1", 50 * si::mm, 50 * si::mm / std::sqrt(2.0), 0.5, 0.2);
  b.set("C1", "damping", 1e4);
  b.join({"W1.A", "C1.A"});
  b.plug("C1.B");
  b.step("push", 1.0);
  EXPECT_VALUE(last(b.run({"C1.B.pressure"}), "C1.B.pressure") / si::bar, 414.0, 414.0, 0.05);
}

}  // namespace
}  // namespace poise::check
