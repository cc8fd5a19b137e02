// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Section 11 of the check values: pressure losses in pipes and fittings. The house has Churchill's friction
// factor (1977) at every Reynolds number; sources that read Colebrook or a chart differ by a known share,
// worked out in each test.
#include "check_values/source.hpp"
#include "parts/pipe_flow.hpp"

namespace poise::check {
namespace {

/// Colebrook and White's friction factor, the yardstick of the sources: 1/√f = −2·log10(ε/3.7
/// + 2.51/(Re·√f)).
double colebrook(double reynolds, double roughness) {
  double root = 8.0;  // 1/√f
  for (int i = 0; i < 100; ++i) root = -2.0 * std::log10(roughness / 3.7 + 2.51 * root / reynolds);
  return 1.0 / (root * root);
}
/// Churchill over Colebrook: the known deviation of the house from a source that uses Colebrook.
double over_colebrook(double reynolds, double roughness) {
  return churchill(reynolds, roughness) / colebrook(reynolds, roughness);
}
/// Roughness, as a share of the bore, at which the house's friction factor is the one a source states.
double roughness_for(double factor, double reynolds) {
  return argument_for(factor, 0.01, 0.03, [&](double e) { return churchill(reynolds, e); });
}
double head(double pressure, double density, double gravity = si::gravity) {
  return pressure / (density * gravity);
}
constexpr double rounded_gravity = 9.81;  ///< as Cengel and Cimbala count

/// Friction factor as it shows in a pipe's pressure loss, by its definition Δp = f·L/D·ρ·v²/2.
double factor(const Pipe& p, const Losses& l) {
  return l.pressure * p.bore / p.length / (0.5 * p.density * l.velocity * l.velocity);
}

// FR-01. A. Esposito, Fluid Power with Applications, 6th ed., 2005, Examples 4-1 and 4-2, p. 132 (known: N).
TEST(check_values, FR_01_reynolds_numbers) {
  const double flow = 10 * foot * circle(inch);
  EXPECT_VALUE(losses({.flow = flow, .bore = inch, .length = 1.0, .viscosity = 100e-6}).reynolds, 774.192,
               774, 0.05);
  const double flow_2 = 5 * circle(50 * si::mm);
  EXPECT_VALUE(losses({.flow = flow_2, .bore = 50 * si::mm, .length = 1.0, .viscosity = 1e-3}).reynolds, 250,
               250, 0.05);
}

// FR-03. Esposito, Example 4-4 (known: N; its notebook labels the number kPa, the arithmetic gives bar).
TEST(check_values, FR_03_laminar_loss_over_50_metres) {
  const Losses l = losses({.flow = 5 * circle(50 * si::mm),
                           .bore = 50 * si::mm,
                           .length = 50.0,
                           .density = 8800 / 9.8,
                           .viscosity = 1e-3});
  EXPECT_VALUE(l.pressure / si::bar, 28.73469388, 28.7, 0.15);
}

// FR-04. Esposito, Example 4-5, p. 137 (known: N): read from a chart, so only a coarse check.
TEST(check_values, FR_04_friction_factors_read_from_a_chart) {
  const auto factor_at = [](double speed) {
    const Pipe p{.flow = speed * circle(inch),
                 .bore = inch,
                 .length = 10.0,
                 .viscosity = 50e-6,
                 .roughness = 0.0018 * inch};
    return factor(p, losses(p));
  };
  EXPECT_VALUE(factor_at(10 * foot), 0.041333416, 0.042, 1.7);
  // Where the flow has just turned turbulent Churchill lies above Colebrook.
  const double deviation = over_colebrook(40 * foot * inch / 50e-6, 0.0018);
  EXPECT_NEAR(deviation, 1.0, 0.02);
  EXPECT_VALUE(factor_at(40 * foot) / deviation, 0.03733393437, 0.036, 3.95);
}

/// Head that fittings alone take.
double head_of_fittings(double k, double flow, double bore) {
  const Pipe plain{.flow = flow, .bore = bore, .length = 1.0};
  Pipe with = plain;
  with.fittings = k;
  return head(losses(with).pressure - losses(plain).pressure, plain.density);
}

// FR-05. Esposito, Example 4-6, p. 142 (known: N; rounded).
TEST(check_values, FR_05_head_loss_of_a_globe_valve) {
  EXPECT_VALUE(head_of_fittings(10.0, 30 * gpm, inch) / foot, 23.33920212, 23.1, 1.1);
}

// FR-06. Esposito, Example 4-7, p. 142 (known: N).
TEST(check_values, FR_06_head_loss_of_a_gate_valve) {
  EXPECT_VALUE(head_of_fittings(0.19, 20 * si::litre, 50 * si::mm), 1.005085809, 1.01, 0.55);
}

/// Pressure after a pump of this power and flow, a rise and a loss of head, at the end of a pipe. One
/// velocity head goes into the oil's speed: the sources' pressure is that beside the moving oil.
struct Delivery {
  double power, flow, bore, density, rise, loss;
};
double delivered(const Delivery& d) {
  const auto fittings_loss = [&](double k) {
    const Pipe plain{.flow = d.flow, .bore = d.bore, .length = 1.0, .density = d.density};
    Pipe with = plain;
    with.fittings = k;
    return head(losses(with).pressure, d.density);
  };
  const double fittings = argument_for(d.loss, 5.0, 20.0, fittings_loss);
  const auto power = [&](double pressure) {
    Bench b;
    b.plan.oil = plain_oil(d.density);
    add_pump(b, d.flow);
    add_dead_weight(b, "W1", pressure);
    b.part("L1", "tube",
           {{"bore", d.bore},
            {"length", 1.0},
            {"roughness", 0.0},
            {"fittings", fittings + 1.0},
            {"rise", d.rise}});
    b.join({"P1.P", "L1.A"});
    b.join({"L1.B", "W1.A"});
    b.step("run", 3.0, {{"P1", "running", 1.0, 0.5}});
    const Trace t = b.run({"P1.shaft_power"});
    EXPECT_LE(t.books.energy_share(), 1e-3);
    return last(t, "P1.shaft_power");
  };
  return argument_for(d.power, 10 * si::bar, 20 * si::bar, power);
}

// FR-09. Esposito, Example 3-10, p. 104 (known: N).
TEST(check_values, FR_09_pressure_left_after_30_feet_of_loss) {
  EXPECT_VALUE(delivered({5 * horsepower, 30 * gpm, inch, 899.19, 20 * foot, 30 * foot}) / psi, 265.3132887,
               265, 0.15);
}

// FR-10. Esposito, Example 3-17, p. 114 (known: N).
TEST(check_values, FR_10_pressure_left_after_9_metres_of_loss) {
  EXPECT_VALUE(delivered({3730.0, 0.001896, 25.4 * si::mm, 898.8073394495414, 6.096, 9.144}), 1826631.782,
               1826e3, 0.05);
}

/// The source rounds the area of its pipe; fed so that the oil has the source's speed.
double flow_at_speed_of(double flow, double rounded_area, double bore) {
  return flow / rounded_area * circle(bore);
}

double turbulent_loss(double flow, double area, double length, double factor, double density) {
  Pipe p{
      .flow = flow_at_speed_of(flow, area, 2 * inch), .bore = 2 * inch, .length = length, .density = density};
  p.roughness = p.bore * roughness_for(factor, losses(p).reynolds);
  return losses(p).pressure;
}

// FR-11. J. Sullivan, Fluid Power: Theory and Applications, 4th ed., Reston, Example 5.1, p. 82 (known: N).
TEST(check_values, FR_11_turbulent_loss_of_200_gpm) {
  const double dp = turbulent_loss(200 * gpm, 3.14 * in2, 800 * foot, 0.05, 909.181);
  EXPECT_VALUE(dp / psi, 613.9064557, 611.99, 0.35);
}

// FR-12. Sullivan, Example 5.2, p. 84 (known: N).
TEST(check_values, FR_12_laminar_loss_of_15_gpm) {
  const Losses l = losses({.flow = flow_at_speed_of(15 * gpm, 0.785 * in2, inch),
                           .bore = inch,
                           .length = 400 * foot,
                           .density = 849.235,
                           .viscosity = 0.08 * in2});
  EXPECT_VALUE(l.pressure / psi, 71.8356244, 71.68, 0.25);
}

// FR-13. Sullivan, Example 5.3, p. 87 (known: N).
TEST(check_values, FR_13_turbulent_loss_of_600_gpm) {
  const double dp = turbulent_loss(600 * gpm, 3.14 * in2, 500 * foot, 0.04, 849.235);
  EXPECT_VALUE(dp / psi, 2580.430827, 2572.39, 0.35);
}

// FR-14. Sullivan, Example 5.5, p. 94 (known: N).
TEST(check_values, FR_14_loss_of_a_row_of_fittings) {
  const double flow = flow_at_speed_of(50 * gpm, 0.785 * in2, inch), k = 0.78 + 1 + 10 + 3.6 + 0.75 + 0.375;
  EXPECT_VALUE(head_of_fittings(k, flow, inch) * 909.181 * si::gravity / psi, 42.21885943, 42.09, 0.35);
}

// FR-15. Sullivan, Example 5.6, p. 96 (known: N): the length that loses as much as the fitting.
TEST(check_values, FR_15_equivalent_length_of_a_fitting) {
  Pipe p{.flow = 100 * gpm, .bore = inch, .length = 1.0};
  p.roughness = p.bore * roughness_for(0.045, losses(p).reynolds);
  Pipe with = p;
  with.fittings = 2.5;
  const double target = losses(with).pressure;
  const double longer = argument_for(target, 2.0, 3.0, [&](double length) {
    Pipe l = p;
    l.length = length;
    return losses(l).pressure;
  });
  EXPECT_VALUE((longer - p.length) / foot, 4.62962963, 4.63, 0.05);
}

// FR-17. Y. A. Cengel and J. M. Cimbala, Fluid Mechanics, 2nd ed., McGraw-Hill 2010, Example 8-1, p. 349
// (known: N).
TEST(check_values, FR_17_glycerin_through_70_metres) {
  const Losses l = losses(
      {.flow = 3 * circle(0.04), .bore = 0.04, .length = 70.0, .density = 1252, .viscosity = 0.3073 / 1252});
  EXPECT_VALUE(l.pressure, 1290660.0, 1291e3, 0.05);
  EXPECT_VALUE(l.power, 4865.673569, 4870.0, 0.15);
}

// FR-19. Cengel and Cimbala, Example 8-3, p. 360 (known: N); the source reads Colebrook.
TEST(check_values, FR_19_water_through_60_metres_of_stainless_tube) {
  const double rough = 0.002 / 50;
  const Pipe pipe{.flow = 6 * si::litre,
                  .bore = 0.05,
                  .length = 60.0,
                  .density = 999,
                  .viscosity = 0.001138 / 999,
                  .roughness = 0.002 * si::mm};
  const Losses l = losses(pipe);
  const double deviation = over_colebrook(l.reynolds, rough);
  EXPECT_NEAR(deviation, 1.0, 0.01);
  EXPECT_VALUE(factor(pipe, l) / deviation, 0.01718838888, 0.0172, 0.1);
  EXPECT_VALUE(l.pressure / deviation, 96204.33238, 96500, 0.35);
  EXPECT_VALUE(head(l.pressure, 999, rounded_gravity) / deviation, 9.816578289, 9.85, 0.4);
  EXPECT_VALUE(l.power / deviation, 577.2259943, 579, 0.35);
}

// FR-20. Cengel and Cimbala, Example 8-8, p. 377 (known: N): how high the upper reservoir stands over the
// pipe, 4 m of lift included.
TEST(check_values, FR_20_level_of_a_reservoir_behind_89_metres_of_cast_iron) {
  const double flow = 6 * si::litre, density = 999.7, rough = 0.26 / 50;
  Bench b;
  b.plan.oil = plain_oil(density, 0.001307 / density);
  add_pump(b, flow);
  b.part("L1", "tube",
         {{"bore", 0.05}, {"length", 89.0}, {"roughness", 0.26 * si::mm}, {"fittings", 2.36}, {"rise", 4.0}});
  b.join({"P1.P", "L1.A"});
  b.join({"L1.B", "T1.T"});
  b.step("run", 2.0, {{"P1", "running", 1.0, 0.5}});
  const Trace t = b.run({"L1.A.pressure", "L1.reynolds"});
  const double re = last(t, "L1.reynolds"), deviation = over_colebrook(re, rough);
  EXPECT_NEAR(deviation, 1.0, 0.01);
  // Only the friction deviates; fittings and lift do not.
  const Pipe pipe{.flow = flow,
                  .bore = 0.05,
                  .length = 89.0,
                  .density = density,
                  .viscosity = 0.001307 / density,
                  .roughness = 0.26 * si::mm};
  const Losses friction = losses(pipe);
  EXPECT_VALUE(factor(pipe, friction) / deviation, 0.03151888716, 0.0315, 0.1);
  const double losing = last(t, "L1.A.pressure") - density * si::gravity * 4.0;
  const double as_source = losing - friction.pressure * (1.0 - 1.0 / deviation);
  EXPECT_VALUE(4.0 + head(as_source, density, rounded_gravity), 31.82463104, 31.8, 0.1);
}

// FR-21. B. S. Massey and A. J. Ward-Smith, Mechanics of Fluids, 8th ed., Example 6.1, p. 196 (known: N).
TEST(check_values, FR_21_pressure_gradient_of_oil_in_a_12_mm_tube) {
  const Losses l = losses(
      {.flow = 2.3 * circle(0.012), .bore = 0.012, .length = 1.0, .density = 830, .viscosity = 0.08 / 830});
  EXPECT_VALUE(l.reynolds, 286.35, 286.3, 0.05);
  EXPECT_VALUE(l.pressure, 40888.88889, 40888.889, 0.05);
}

// FR-22. R. L. Daugherty and J. B. Franzini, Fluid Mechanics with Engineering Applications, 8th ed.,
// Examples 8.1 and 8.2, pp. 205 and 212 (known: N).
TEST(check_values, FR_22_half_a_litre_per_second_of_oil_in_a_100_mm_pipe) {
  const Losses l =
      losses({.flow = 0.5 * si::litre, .bore = 0.1, .length = 100.0, .density = 850, .viscosity = 1.8e-5});
  EXPECT_VALUE(l.reynolds, 353.6776513, 354, 0.15);
  EXPECT_VALUE(churchill(l.reynolds, 0.0), 0.1809557368, 0.18, 0.6);
  EXPECT_VALUE(head(l.pressure, 850) / 100, 0.000373922786, 0.00037, 1.15);
}

// FR-23. Scientific library "fluids", documentation and test suite (Colebrook 1939; known: L). The house has
// Churchill instead; this holds the yardstick of these tests, and Churchill's own distance from it as FR-24
// prints it.
TEST(check_values, FR_23_colebrook_at_100000_and_churchills_distance_from_it) {
  EXPECT_NEAR(colebrook(1e5, 1e-4), 0.018513866077, 1e-8 * 0.0185);
  EXPECT_NEAR(churchill(1e5, 1e-4), 0.018513866077, 0.003 * 0.0185);
  EXPECT_NEAR(over_colebrook(1e5, 1e-4), 0.018462624566 / 0.018513866077, 1e-8);
}

// FR-24. Scientific library "fluids", documentation and test suite (Churchill 1977; known: L).
TEST(check_values, FR_24_churchill_at_100000) {
  EXPECT_NEAR(churchill(1e5, 1e-4), 0.018462624566, 1e-8 * 0.018462624566);
}

// FR-26. Scientific library "fluids", test suite (known: L). Blasius (0.03164 at Re = 10,000) is another fit
// than the house's; it lies above Colebrook's smooth pipe, where Churchill is within half a per cent.
TEST(check_values, FR_26_laminar_factor_at_128) { EXPECT_VALUE(churchill(128.0, 0.0), 0.5, 0.5, 0.05); }

}  // namespace
}  // namespace poise::check
