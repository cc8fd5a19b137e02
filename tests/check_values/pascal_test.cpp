// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Section 5 of the check values: Pascal's principle, force and area.
#include "check_values/source.hpp"

namespace poise::check {
namespace {

// P-01. U.S. Navy NAVEDTRA 14105 Fluid Power, ch. 2, p. 2-6 (known: T).
TEST(check_values, P_01_pressure_under_100_lbf_on_10_square_inches) {
  Bench b;
  add_ram(b, "C1", 10 * in2);
  b.set("C1", "damping", 1e4);
  b.part("F1", "force", {{"force", 100 * lbf}});
  b.plug("C1.A");
  b.join({"C1.rod", "F1.rod"});
  b.step("rest", 1.0);
  EXPECT_VALUE(last(b.run({"C1.A.pressure"}), "C1.A.pressure") / psi, 10.0, 10.0, 0.05);
}

/// Force of a ram of this area, at this pressure, on a stiff spring.
double push(double pressure, double area) {
  Bench b;
  add_dead_weight(b, "W1", pressure);
  add_ram(b, "C1", area, 1.0, 0.0);
  b.part("L1", "spring", {{"rate", 1e8}});
  b.join({"W1.A", "C1.A"});
  b.join({"C1.rod", "L1.rod"});
  b.step("rest", 1.0);
  return last(b.run({"L1.force"}), "L1.force");
}

// P-02. DOE-HDBK-1018/2-93, Mechanical Science, module ME-05, p. 11, Example 1 (known: T).
TEST(check_values, P_02_force_of_1500_psi_on_2_square_inches) {
  EXPECT_VALUE(push(1500 * psi, 2 * in2) / lbf, 3000.0, 3000.0, 0.05);
}

// P-03. DOE-HDBK-1018/2-93, module ME-05, p. 11, Example 2 (known: T): a pump raises the pressure until it
// moves.
TEST(check_values, P_03_pressure_that_opens_a_valve_of_1848_lbf_with_3_square_inches) {
  Bench b;
  add_pump(b, 1 * si::litre_per_minute);
  add_ram(b, "C1", 3 * in2, 1.0, 0.0);
  b.part("F1", "force", {{"force", 1848 * lbf}});
  b.join({"P1.P", "C1.A"});
  b.join({"C1.rod", "F1.rod"});
  b.set("C1", "damping", 100.0);
  b.step("open", 3.0, {{"P1", "running", 1.0, 0.5}});
  const Trace t = b.run({"C1.A.pressure", "C1.position"});
  ASSERT_GT(last(t, "C1.position"), 10 * si::mm);
  EXPECT_VALUE(last(t, "C1.A.pressure") / psi, 616.0, 616.0, 0.05);
}

// P-04. U.S. Army TM 1-1500-204-23-2, ch. 2, p. 2-2 (known: T).
TEST(check_values, P_04_volume_that_an_8_square_inch_piston_takes_over_10_inches) {
  EXPECT_VALUE(volume_taken(8 * in2, 10 * inch) / in3, 80.0, 80.0, 0.05);
}

/// Two rams of one oil, a force on the first, the second on a stiff spring.
struct Press {
  double pressure, force;
};
Press press(double force, double first_area, double second_area) {
  Bench b;
  add_ram(b, "C1", first_area, 20.0, 10.0);
  add_ram(b, "C2", second_area, 1.0, 0.0);
  b.set("C1", "damping", 100.0);
  b.part("F1", "force", {{"force", force}});
  b.part("L1", "spring", {{"rate", 1e9}});
  b.join({"C1.A", "C2.A"});
  b.join({"C1.rod", "F1.rod"});
  b.join({"C2.rod", "L1.rod"});
  b.step("rest", 1.0);
  const Trace t = b.run({"C1.A.pressure", "L1.force"});
  return {last(t, "C1.A.pressure"), last(t, "L1.force")};
}

/// Way of each ram when the first is pushed slowly down against a load on the second.
struct Ways {
  double first, second;
};
Ways ways(double first_area, double second_area, double load) {
  Bench b;
  const double push = load * first_area / second_area;
  b.plan.oil = plain_oil();
  add_ram(b, "C1", first_area, 20.0, 10.0);
  add_ram(b, "C2", second_area, 1.0, 0.0);
  b.set("C1", "damping", push);  // 1.05 times the push that holds the load: 50 mm/s
  b.part("F1", "force", {{"force", push}});
  b.part("F2", "force", {{"force", load}});
  b.join({"C1.A", "C2.A"});
  b.join({"C1.rod", "F1.rod"});
  b.join({"C2.rod", "F2.rod"});
  b.step("pumping", 60.0, {{"F1", "force", 1.05 * push, 1.0}});
  const Trace t = b.run({"C1.position", "C2.position"});
  EXPECT_GT(last(t, "C2.position"), 10 * si::mm);
  return {at(t, "C1.position", 0.0) - last(t, "C1.position"),
          last(t, "C2.position") - at(t, "C2.position", 0.0)};
}

// P-05. U.S. Army TM 1-1500-204-23-2, ch. 2, pp. 2-2 and 2-3 (known: T).
TEST(check_values, P_05_fifty_lbf_on_2_square_inches_makes_250_lbf_on_10) {
  const Press p = press(50 * lbf, 2 * in2, 10 * in2);
  EXPECT_VALUE(p.pressure / psi, 25.0, 25.0, 0.05);
  EXPECT_VALUE(p.force / lbf, 250.0, 250.0, 0.05);
  EXPECT_VALUE(p.force / (50 * lbf), 5.0, 5.0, 0.05);
}

// P-06. U.S. Army TM 1-1500-204-23-2, ch. 2, pp. 2-2 and 2-3 (known: T).
TEST(check_values, P_06_area_and_way_to_lift_800_lbf_with_40_lbf) {
  const double area = argument_for(800 * lbf, 50 * in2, 100 * in2,
                                   [](double a) { return press(40 * lbf, 4 * in2, a).force; });
  EXPECT_VALUE(area / in2, 80.0, 80.0, 0.05);
  const Ways w = ways(4 * in2, area, 800 * lbf);
  EXPECT_VALUE(w.first / w.second * 10.0, 200.0, 200.0, 0.05);  // in of way for 10 in of lift
}

// P-07. OpenStax College Physics, Pascal's principle, worked example and first exercise, 251 atm (known: T).
TEST(check_values, P_07_master_and_wheel_cylinder) {
  const Press p = press(500.0, circle(5 * si::mm), circle(25 * si::mm));
  EXPECT_VALUE(p.force, 12500.0, 12500.0, 0.05);
  EXPECT_VALUE(p.pressure, 25464790.89, 2.55e7, 0.2);
}

// P-09. A. Esposito, Fluid Power with Applications, 6th ed., 2005, Example 3-4, p. 85 (known: N).
TEST(check_values, P_09_jack_of_2_and_20_square_inches) {
  EXPECT_VALUE(press(100 * lbf, 2 * in2, 20 * in2).force / lbf, 1000.0, 1000.0, 0.05);
  const Ways w = ways(2 * in2, 20 * in2, 1000 * lbf);
  EXPECT_VALUE(w.second / w.first * 1.0, 0.1, 0.1, 0.05);  // in of lift for 1 in of way
}

// P-11. Esposito, Example 3-5, p. 88 (known: N): 25 lbf on an 8 : 2 handle, pump piston 1 in × 2 in, load
// piston 3.25 in, 10 in of lift. The load is what 25 lbf at the handle lifts: handle force and load are in
// proportion.
TEST(check_values, P_11_hand_pump_with_a_lever_lifts_a_load) {
  const double lever = 4, stroke = 2 * inch, rate = 60 * si::per_minute;
  const auto lift = [&](double load) {
    Bench b;
    b.plan.oil = plain_oil();
    b.part("T1", "reservoir", {{"usable_oil", 20 * si::litre}});
    b.part("P1", "hand_pump",
           {
               {"stroke_volume", circle(1 * inch) * stroke},
               {"volumetric_efficiency", 1.0},
               {"rated_pressure", 250 * si::bar},
               {"handle_travel", lever * stroke},
               {"handle_efficiency", 1.0},
           });
    add_ram(b, "C1", circle(3.25 * inch), 1.0, 0.0);
    b.set("C1", "damping", 10.0);
    b.part("F1", "force", {{"force", load}});
    b.join({"T1.T", "P1.S"});
    b.join({"P1.P", "C1.A"});
    b.join({"C1.rod", "F1.rod"});
    b.step("rest", 1.0);
    b.step("pump", 60.0, {{"P1", "rate", rate}});
    return b.run({"P1.handle_force", "C1.A.pressure", "C1.position"});
  };
  const double load = argument_for(25 * lbf, 500 * lbf, 2000 * lbf,
                                   [&](double f) { return last(lift(f), "P1.handle_force"); });
  const Trace t = lift(load);
  const double begins = t.steps[1].begin, lifted = at(t, "C1.position", begins) + 10 * inch;
  EXPECT_VALUE(last(t, "C1.A.pressure") / psi, 127.3239545, 127.0, 0.3);
  EXPECT_VALUE(load / lbf, 1056.25, 1053.0, 0.35);
  EXPECT_VALUE((first_above(t, "C1.position", lifted) - begins) * rate, 52.8125, 52.8, 0.05);
}

// P-12. Esposito, Example 3-6, p. 91 (known: N): air of 100 psi on 20 in2 drives 1 in2, and that 25 in2.
TEST(check_values, P_12_air_over_oil_booster) {
  Bench b;
  add_dead_weight(b, "W1", 100 * psi);
  b.part("I1", "intensifier",
         {{"ratio", 20.0},
          {"plunger", diameter_of(1 * in2)},
          {"stroke", 1.0},
          {"return_chamber", 0.0},
          {"friction", 0.0},
          {"seal_friction", 0.0}});
  add_ram(b, "C1", 25 * in2, 1.0, 0.0);
  b.part("L1", "spring", {{"rate", 1e9}});
  b.join({"W1.A", "I1.A"});
  b.join({"I1.B", "C1.A"});
  b.join({"C1.rod", "L1.rod"});
  b.step("press", 2.0);
  EXPECT_VALUE(last(b.run({"L1.force"}), "L1.force") / lbf, 50000.0, 50000.0, 0.05);
}

// P-13. J. Sullivan, Fluid Power: Theory and Applications, 4th ed., Reston, Example 2.3, p. 25 (known: N).
TEST(check_values, P_13_jack_pistons_of_0_049_and_0_785_square_inches) {
  EXPECT_VALUE(press(150 * lbf, 0.049 * in2, 0.785 * in2).force / lbf, 2403.061224, 2403.0, 0.05);
}

// P-14. Esposito, Examples 2-5, p. 48, and 2-15, p. 67 (known: N): the foot of a standing pipe.
TEST(check_values, P_14_static_head_of_60_ft_and_18_3_m_of_water) {
  EXPECT_VALUE(foot_of_pipe(60 * foot, 999.5) / psi, 25.99864441, 26.0, 0.05);
  EXPECT_VALUE(foot_of_pipe(18.3, 999.5), 179371.9642, 179e3, 0.25);
}

}  // namespace
}  // namespace poise::check
