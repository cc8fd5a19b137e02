// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Section 10 of the check values: velocity in lines and strength of their walls.
#include "check_values/source.hpp"
#include "parts/kind.hpp"
#include "parts/tube_wall.hpp"

namespace poise::check {
namespace {

double velocity(double flow, double bore) {
  return losses({.flow = flow, .bore = bore, .length = 0.2}).velocity;
}

// LN-01 and LN-02. A. Esposito, Fluid Power with Applications, 6th ed., 2005, Examples 10-1, p. 367, and
// 10-2, p. 368 (known: N).
TEST(check_values, LN_01_bore_for_30_gpm_at_20_feet_per_second) {
  const double bore =
      argument_for(20 * foot, 15 * si::mm, 25 * si::mm, [](double d) { return velocity(30 * gpm, d); });
  EXPECT_VALUE(bore / inch, 0.7827813396, 0.783, 0.05);
}
TEST(check_values, LN_02_bore_for_2_litres_per_second_at_6_1_metres_per_second) {
  const double bore =
      argument_for(6.1, 15 * si::mm, 25 * si::mm, [](double d) { return velocity(2 * si::litre, d); });
  EXPECT_VALUE(bore, 0.02043172994, 20.4 * si::mm, 0.2);
}

// LN-04. Esposito, Example 3-7, p. 95 (known: N): one flow through both tubes.
TEST(check_values, LN_04_a_4_to_2_inch_reducer) {
  const auto speeds = [](double flow) {
    Bench b;
    b.plan.oil = plain_oil();
    add_pump(b, flow);
    b.part("L1", "tube", {{"bore", 4 * inch}, {"length", 1.0}});
    b.part("L2", "tube", {{"bore", 2 * inch}, {"length", 1.0}});
    b.join({"P1.P", "L1.A"});
    b.join({"L1.B", "L2.A"});
    b.join({"L2.B", "T1.T"});
    b.step("run", 2.0, {{"P1", "running", 1.0, 0.5}});
    const Trace t = b.run({"L1.velocity", "L2.velocity"});
    return std::array{last(t, "L1.velocity"), last(t, "L2.velocity")};
  };
  const double flow =
      argument_for(4 * foot, 5 * si::litre, 15 * si::litre, [&](double q) { return speeds(q)[0]; });
  EXPECT_VALUE(flow / foot3, 0.3490658504, 0.349, 0.05);
  EXPECT_VALUE(speeds(flow)[1] / foot, 16.0, 16.0, 0.05);
}

// LN-05. J. Sullivan, Fluid Power: Theory and Applications, 4th ed., Reston, Example 3.4, p. 46 (known: N).
TEST(check_values, LN_05_speeds_of_40_gpm_in_3_14_and_12_56_square_inches) {
  EXPECT_VALUE(velocity(40 * gpm, diameter_of(3.14 * in2)) / foot, 4.087048831, 4.08, 0.2);
  EXPECT_VALUE(velocity(40 * gpm, diameter_of(12.56 * in2)) / foot, 1.021762208, 1.02, 0.2);
}

/// What a tube says of its wall.
enum Rule { outer_diameter, on_bore, thick };
struct Wall {
  double bore, thickness, strength, safety;
  Rule rule;
};
double working_pressure(const Wall& w) {
  Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 1.0}});
  b.part("L1", "tube",
         {{"bore", w.bore},
          {"wall", w.thickness},
          {"length", 1.0},
          {"wall_strength", w.strength},
          {"safety", w.safety},
          {"wall_rule", double(w.rule)}});
  b.join({"T1.T", "L1.A"});
  b.plug("L1.B");
  b.step("rest", 0.1);
  return last(b.run({"L1.working_pressure"}), "L1.working_pressure");
}

// LN-07. Esposito, Example 10-3, p. 371 (known: N): thin wall, reckoned on the bore.
TEST(check_values, LN_07_working_pressure_of_a_tube_of_1_25_by_1_06_inches) {
  const double p = working_pressure({1.06 * inch, 0.5 * (1.25 - 1.06) * inch, 55000 * psi, 8.0, on_bore});
  EXPECT_VALUE(p / psi, 1232.311321, 1232.0, 0.05);
}

// LN-09. Esposito, Example 10-5, p. 389 (known: N). The bore over wall of the second tube is the printed 12.
TEST(check_values, LN_09_choice_between_two_tubes) {
  const double thin = working_pressure({20 * si::mm, 1 * si::mm, 379e6, 8.0, on_bore});
  const double stout = working_pressure({24 * si::mm, 2 * si::mm, 379e6, 8.0, on_bore});
  EXPECT_VALUE(thin / si::bar, 47.375, 47.4, 0.1);
  EXPECT_VALUE(stout / si::bar, 78.95833333, 79.0, 0.1);
  EXPECT_VALUE(2.0 * 379e6 / 8.0 / stout, 12.0, 12.0,
               0.05);  // bore over wall of a thin wall is 2·S/(safety·p)
}

// LN-10. Sullivan, Example 12.6, p. 305 (known: N): four times the wall that would just hold, reckoned on the
// outer diameter (Barlow).
TEST(check_values, LN_10_wall_for_20_gpm_at_15_feet_per_second_and_2500_psi) {
  const double bore =
      argument_for(15 * foot, 15 * si::mm, 25 * si::mm, [](double d) { return velocity(20 * gpm, d); });
  const double just_holds = argument_for(2500 * psi, 0.2 * si::mm, 1 * si::mm, [&](double wall) {
    return working_pressure({bore, wall, 55000 * psi, 1.0, outer_diameter});
  });
  EXPECT_VALUE(4.0 * just_holds / inch, 0.07028697789, 0.070, 0.45);
}

// ST-01. S. S. Bhavikatti, Strength of Materials, Example 8.10, p. 337 (known: N): Lamé, at 800 bar.
TEST(check_values, ST_01_hoop_stress_in_a_thick_cylinder) {
  const double bore = 400 * si::mm, wall = 100 * si::mm;
  Bench b;
  add_dead_weight(b, "W1", 800 * si::bar);
  b.part("L1", "tube", {{"bore", bore}, {"wall", wall}, {"length", 1.0}});
  b.join({"W1.A", "L1.A"});
  b.plug("L1.B");
  b.step("rest", 1.0);
  EXPECT_VALUE(last(b.run({"L1.wall_stress"}), "L1.wall_stress"), 208e6, 208e6, 0.05);
  EXPECT_VALUE((TubeWall{bore, wall}.hoop_stress(800 * si::bar, bore + 2 * wall)), 128e6, 128e6, 0.05);
  // Allowed that stress, it may carry that pressure.
  EXPECT_VALUE(working_pressure({bore, wall, 208e6, 1.0, thick}) / si::bar, 800.0, 800.0, 0.05);
}

// ST-02. Bhavikatti, Example 8.1, p. 322 (known: N): a closed shell of 1,000 × 15 mm, 3 m long, at 1.5 N/mm2,
// E = 2e5 N/mm2, Poisson's ratio 0.3 grows by 1,119,192.38 mm3. The house's tube, E = 210 GPa, leaves the
// pull of closed ends out: V·p·D/(t·E) instead of (1.25 − ν) times that, which is the known deviation.
TEST(check_values, ST_02_growth_of_volume_of_a_thin_closed_shell) {
  const double poisson = 0.3, modulus = 200e9, pressure = 1.5e6;
  Bench b;
  b.part("L1", "tube", {{"bore", 1.0}, {"wall", 15 * si::mm}, {"length", 3.0}});
  const Laws laws = find_kind("tube")->make(b.plan.parts[0].values, Oil{OilData{}});
  const double give = laws.space(laws.numbers.get(), 0).wall + laws.space(laws.numbers.get(), 1).wall;
  EXPECT_VALUE(give * pressure * (210e9 / modulus) * (1.25 - poisson), 0.001119192383, 1119192.38e-9, 0.05);
}

}  // namespace
}  // namespace poise::check
