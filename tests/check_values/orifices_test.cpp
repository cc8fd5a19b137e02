// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Section 9 of the check values: orifices, needle valves, clearances.
#include "check_values/source.hpp"

namespace poise::check {
namespace {

double flow(const Orifice& o, double pressure, double density) {
  return o.flow(OilHere<double>{pressure, density}, OilHere<double>{0.0, density}, 1.0);
}

// OR-02. J. Sullivan, Fluid Power: Theory and Applications, 4th ed., Reston, Example 5.4, p. 90 (known: N;
// rounded).
TEST(check_values, OR_02_discharge_coefficient_of_1000_gpm_at_120_psi) {
  const double cd = argument_for(1000 * gpm, 0.5, 1.0, [](double discharge) {
    return flow({.area = 3.14 * in2, .discharge = discharge}, 120 * psi, 849.235);
  });
  EXPECT_VALUE(cd, 0.705526983, 0.70, 0.85);
}

/// A jet from a hole without losses, under the foot of a standing pipe.
double jet(double head, double diameter) {
  return flow({.area = circle(diameter), .discharge = 1.0}, foot_of_pipe(head, 1000.0), 1000.0);
}

// OR-03. A. Esposito, Fluid Power with Applications, 6th ed., 2005, Example 3-11, p. 108 (known: N).
TEST(check_values, OR_03_jet_from_36_feet_through_2_inches) {
  const double free = jet(36 * foot, 2 * inch), with_losses = jet((36 - 10) * foot, 2 * inch);
  EXPECT_VALUE(free / circle(2 * inch) / foot, 48.13036, 48.1, 0.1);
  EXPECT_VALUE(free / gpm, 471.2914, 471, 0.1);
  EXPECT_VALUE(with_losses / circle(2 * inch) / foot, 40.90294, 40.9, 0.05);
  EXPECT_VALUE(with_losses / gpm, 400.5207, 400, 0.15);
}

// OR-04. Sullivan, Example 3.11, p. 55 (known: N).
TEST(check_values, OR_04_jet_from_40_feet) {
  EXPECT_VALUE(jet(40 * foot, inch) / circle(inch) / foot, 50.73385344, 50.75, 0.05);
}

// OR-05. Y. A. Cengel and J. M. Cimbala, Fluid Mechanics, 2nd ed., McGraw-Hill 2010, Example 8-10, p. 385
// (known: N). The coefficient takes in the velocity of approach, (1 − β⁴)^−½; the mercury stands in methanol,
// and g is 9.81.
TEST(check_values, OR_05_orifice_meter_in_methanol) {
  const double beta = 30.0 / 40.0, density = 788.4;
  const Orifice meter{.area = circle(30 * si::mm), .discharge = 0.61 / std::sqrt(1.0 - std::pow(beta, 4))};
  const double found = flow(meter, (13600.0 - density) * 9.81 * 0.11, density);
  EXPECT_VALUE(found, 0.003088427464, 0.00309, 0.1);
  EXPECT_VALUE(losses({.flow = found, .bore = 40 * si::mm, .length = 1.0}).velocity, 2.457692487, 2.46, 0.15);
}

// OR-06. R. W. Fox and A. T. McDonald, Introduction to Fluid Mechanics, 5th ed., Wiley 2001, Example 8.1, p.
// 317 (known: N): a spool of 25 mm with 5 micrometres all round, as a piston without a seal at the end of its
// stroke.
TEST(check_values, OR_06_leakage_past_a_spool) {
  Bench b;
  b.plan.oil = plain_oil(870.0, 0.018 / 870.0);
  add_dead_weight(b, "W1", 20e6);
  add_dead_weight(b, "W2", 1e6);
  add_cylinder(b, "C1", 25 * si::mm, 1 * si::mm, 0.1, 0.1);
  b.set("C1", "piston_gap", 5 * si::micrometre);
  b.set("C1", "piston_length", 15 * si::mm);
  b.join({"W1.A", "C1.A"});
  b.join({"W2.A", "C1.B"});
  b.step("rest", 2.0);
  EXPECT_VALUE(last(b.run({"C1.A.flow"}), "C1.A.flow") / 1e-9, 57.57162463, 57.57, 0.05);
}

// OR-07. B. S. Massey and A. J. Ward-Smith, Mechanics of Fluids, 8th ed., Example 6.4, p. 209 (known: N;
// rounded): the oil of a dashpot has no other way than past its piston.
TEST(check_values, OR_07_speed_of_a_dashpot) {
  const double bore = 50.4 * si::mm;
  Bench b;
  b.plan.oil = plain_oil(870.0, 1e-4);
  b.part("T1", "reservoir", {{"usable_oil", 10 * si::litre}});
  add_cylinder(b, "C1", bore, 0.1 * si::mm, 1.0, 0.9);
  b.set("C1", "piston_gap", 0.2 * si::mm);
  b.set("C1", "piston_length", 0.13);
  b.part("F1", "force", {{"force", 0.0}});
  b.plug("C1.A");
  b.join({"C1.B", "T1.T"});
  b.join({"C1.rod", "F1.rod"});
  b.step("press", 5.0, {{"F1", "force", 1.4e6 * circle(bore), 0.5}});
  const Trace t = b.run({"C1.speed", "C1.A.pressure"});
  EXPECT_NEAR(last(t, "C1.A.pressure"), 1.4e6, 1e-3 * 1.4e6);
  EXPECT_VALUE(-last(t, "C1.speed"), 0.006549431837, 0.0065, 0.85);
}

// OR-08. R. W. Fox and A. T. McDonald, Introduction to Fluid Mechanics, 5th ed., Wiley 2001, Example 8.4, p.
// 328 (known: N; the source cuts to two figures).
TEST(check_values, OR_08_viscosity_from_the_flow_through_a_capillary) {
  const double density = 870.0;
  const auto through = [&](double viscosity) {
    Bench b;
    b.plan.oil = plain_oil(density, viscosity / density);
    add_dead_weight(b, "W1", 1e6);
    b.part("T1", "reservoir", {{"usable_oil", 1.0}});
    b.part("L1", "tube", {{"bore", 0.5 * si::mm}, {"length", 1.0}, {"roughness", 0.0}});
    b.join({"W1.A", "L1.A"});
    b.join({"L1.B", "T1.T"});
    b.step("run", 1.0);
    return last(b.run({"L1.A.flow"}), "L1.A.flow");
  };
  EXPECT_VALUE(argument_for(880e-9, 0.0015, 0.002, through), 0.001743159986, 0.0017, 2.7);
}

/// Area of the hole through which a flow passes at a pressure.
double hole_for(double volume_flow, double pressure, double density) {
  return argument_for(volume_flow, 1 * si::mm2, 100 * si::mm2,
                      [&](double area) { return flow({.area = area}, pressure, density); });
}
/// Flow of water through that hole at a pressure.
double of_water(double hole, double pressure) { return flow({.area = hole}, pressure, water); }

// CV-01. Esposito, Example 8-5, p. 304 (known: N): Cv is US gpm of water at 1 psi, the metric coefficient
// L/min at 1 kPa.
TEST(check_values, CV_01_flow_coefficient_from_25_gpm_at_100_psi) {
  EXPECT_VALUE(of_water(hole_for(25 * gpm, 100 * psi, 0.9 * water), psi) / gpm, 2.371708245, 2.37, 0.1);
  const double hole = hole_for(94.8 * si::litre_per_minute, 687e3, 0.9 * water);
  EXPECT_VALUE(of_water(hole, 1e3) / si::litre_per_minute, 3.431241, 3.43, 0.05);
}

// CV-02. Sullivan, Example 10.1, p. 225 (known: N).
TEST(check_values, CV_02_coefficient_of_a_valve_and_drop_over_another) {
  EXPECT_VALUE(of_water(hole_for(30 * gpm, 300 * psi, 0.85 * water), psi) / gpm, 1.596872, 1.597, 0.05);
  const double hole = hole_for(5.41 * gpm, psi, water);
  const double drop = argument_for(30 * gpm, 20 * psi, 30 * psi,
                                   [&](double p) { return flow({.area = hole}, p, 0.85 * water); });
  EXPECT_VALUE(drop / psi, 26.13767, 26.138, 0.05);
}

// CV-03. Scientific library "fluids", test suite (known: L): Kv is m3/h of water at 1 bar. To the source's
// five digits.
TEST(check_values, CV_03_cv_to_kv) {
  const Orifice of_cv_1{.area = hole_for(1 * gpm, psi, water)};
  const double cv = flow(of_cv_1, psi, water) / gpm;  // 1 within the search
  const double kv = flow(of_cv_1, si::bar, water) * 3600.0;
  EXPECT_NEAR(2.312 * kv / cv, 1.9998283, 1e-5 * 1.9998283);
}

}  // namespace
}  // namespace poise::check
