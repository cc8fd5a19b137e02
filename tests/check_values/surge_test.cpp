// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Section 12 of the check values: pressure surges. The tube of the house, with inertia, is of steel of 210
// GPa; where a source has another modulus E, the wall is scaled so that wall · E is the source's.
#include "check_values/source.hpp"

namespace poise::check {
namespace {

struct Liquid {
  double modulus, density;
  OilData oil() const {
    OilData data = thin_oil(density);
    data.modulus = modulus;
    return data;
  }
};
constexpr double rigid = 1e6;               ///< m of wall: does not give
constexpr double standing = 100 * si::bar;  ///< over which the last trace of air in the liquid is stiff

Bench long_tube(const Liquid& liquid, double bore, double wall, double length, double segments) {
  Bench b;
  b.plan.oil = liquid.oil();
  add_dead_weight(b, "W1", 0.0);
  b.set("W1", "moving_mass", 0.01);
  b.set("W1", "stroke", 20.0);
  b.set("W1", "start_position", 18.0);
  b.part("T1", "reservoir", {{"usable_oil", 1000.0}});
  b.part("L1", "tube",
         {{"bore", bore},
          {"wall", wall},
          {"length", length},
          {"roughness", 0.0},
          {"segments", segments},
          {"inertia", 1.0}});
  return b;
}
/// Brings the liquid under pressure so slowly that no wave is left.
void pressurize(Bench& b, double time) {
  // Over whole periods, so that what its beginning rouses its end stills.
  b.step("stand", time, {{"W1_weight", "force", standing * dead_weight_area, 10.0 / 11.0 * time}});
}

/// Speed of waves in a tube at a pressure, 1/√(ρ·(1/K + D/(s·E))), with what the pressure does to the liquid
/// and to the bore. The sources have it at no pressure: the share is the known deviation of these runs.
struct Waves {
  double speed, density;
};
Waves waves(const Liquid& liquid, double bore, double wall, double pressure) {
  const Oil oil(liquid.oil());
  const double give = bore / (wall * 210e9), density = oil.density(pressure).value;
  const double softness = (1.0 + give * pressure) / oil.effective_modulus(pressure) + give;
  return {1.0 / std::sqrt(density * softness), density};
}
Waves at_no_pressure(const Liquid& liquid, double bore, double wall) {
  return {1.0 / std::sqrt(liquid.density * (1.0 / liquid.modulus + bore / (wall * 210e9))), liquid.density};
}

/// Rise of pressure at the end of a tube as the flow out of it goes from one speed to another within a
/// millisecond.
double surge(const Liquid& liquid, double bore, double wall, double from, double to) {
  const double length = 5.0;
  const Waves source = at_no_pressure(liquid, bore, wall);
  const double period = 4 * length / source.speed;
  Bench b = long_tube(liquid, bore, wall, length, 50);
  b.part("P1", "pump",  // meters what leaves the tube
         {{"flow", from * circle(bore)}, {"volumetric_efficiency", 1.0}, {"rated_pressure", 250 * si::bar}});
  // A restriction whose slope is ρ·c/A takes up the waves that come to the other end, as an endless pipe
  // would: they are stilled before the flow is stopped. A drop a·Q² + 0.1·a·Q_r·Q has the slope 2.1/1.1 ·
  // drop/Q at the rated flow.
  b.part("V1", "shut_off",
         {{"rated_flow", from * circle(bore)},
          {"pressure_drop", source.density * source.speed * from * 1.1 / 2.1},
          {"port_volume", 0.05 * si::cm3}});
  b.join({"W1.A", "V1.A"});
  b.join({"V1.B", "L1.A"});
  b.join({"L1.B", "P1.S"});
  b.join({"P1.P", "T1.T"});
  pressurize(b, 40 * period);
  b.step("flow", 40 * period, {{"P1", "running", 1.0, 20 * period}});
  b.step("shut", 0.5 * period, {{"P1", "running", to / from, 1 * si::ms}});
  const Trace t = b.run({"L1.B.pressure"}, {.tolerances = solve::Tolerances{}.tighter(10)});
  const double shuts = t.steps[2].begin;
  const double before = mean(t, "L1.B.pressure", shuts - 2 * period, shuts);
  const double rise = mean(t, "L1.B.pressure", shuts + 1.5 * si::ms, shuts + 0.5 * period) - before;
  const Waves slow = waves(liquid, bore, wall, before + rise), fast = waves(liquid, bore, wall, before);
  // The house leaves out what the oil's own speed does to the waves, so that Δp = c·Δ(ρ·v); the density on
  // the two sides of the wave differs by 0.2 %.
  const double here = 0.5 * (slow.speed + fast.speed) * (fast.density * from - slow.density * to);
  return rise * source.density * source.speed * (from - to) / here;
}

/// Speed of the waves that run to and fro in a tube with one end open and one shut: four lengths in each
/// period.
double wave_speed(const Liquid& liquid, double bore, double wall, double length) {
  const Waves source = at_no_pressure(liquid, bore, wall);
  const double period = 4 * length / source.speed;
  const int pieces = 16;
  Bench b = long_tube(liquid, bore, wall, length, pieces);
  b.part("P1", "pump",
         {{"flow", 0.1 * circle(bore)}, {"volumetric_efficiency", 1.0}, {"rated_pressure", 250 * si::bar}});
  b.join({"W1.A", "L1.A"});
  b.join({"T1.T", "P1.S"});
  b.join({"P1.P", "L1.B"});
  pressurize(b, 22 * period);
  b.step("ring", 8 * period, {{"P1", "running", 1.0, period / 3}});
  const Trace t = b.run({"L1.B.pressure"}, {.tolerances = solve::Tolerances{}.tighter(30)});
  const double found = 4 * length * frequency(t, "L1.B.pressure", t.steps[1].begin + period, t.steps[1].end);
  // A row of pieces carries its longest wave a little slower than a whole tube: by sin(x)/x, x =
  // π/(4·pieces).
  const double x = std::numbers::pi / (4 * pieces);
  return found * x / std::sin(x) * source.speed / waves(liquid, bore, wall, standing).speed;
}

// SU-01. K. Subramanya, 1000 Solved Problems in Fluid Mechanics, Tata McGraw-Hill 2005, Example 14.12, p. 358
// (known: N). To a scale of 1 : 25: the speed hangs on bore over wall only.
TEST(check_values, SU_01_wave_speed_in_an_elastic_pipe) {
  const double wall = 2.0 / 2.5 * si::mm * 207.0 / 210.0;
  EXPECT_VALUE(wave_speed({1.43e9, 798.4}, 100 * si::mm, wall, 200.0), 980.3698801, 980.4, 0.05);
}

// SU-02. Subramanya, Example 14.13, p. 358 (known: N).
TEST(check_values, SU_02_surge_from_4_to_1_metre_per_second_in_a_rigid_pipe) {
  EXPECT_VALUE(surge({2.2e9, 998.0}, 0.2, rigid, 4.0, 1.0), 4445267.146, 4.445e6, 0.05);
}

// SU-04. Subramanya, Example 14.15, p. 358 (known: N).
TEST(check_values, SU_04_surge_of_2_1_metres_per_second_in_a_rigid_and_in_an_elastic_pipe) {
  const Liquid water_of_it{2.1e9, 998.0};
  EXPECT_VALUE(surge(water_of_it, 0.6, rigid, 2.1, 0.0), 3040144.404, 3.04e6, 0.05);
  EXPECT_VALUE(surge(water_of_it, 0.6, 12 * si::mm, 2.1, 0.0), 2482267.512, 2.482e6, 0.05);
}

// SU-05. Subramanya, Example 14.16, p. 359 (known: N): a wave's way to the open end and back.
TEST(check_values, SU_05_longest_closing_time_that_is_still_sudden) {
  const double c = wave_speed({1.43e9, 798.4}, 100 * si::mm, 10 * si::mm, 1000.0);
  EXPECT_VALUE(2 * 1000.0 / c, 1.544462011, 1.544, 0.05);
}

/// A liquid in which waves run at a given speed, in a rigid pipe.
Liquid with_speed(double speed, double density) { return {density * speed * speed, density}; }

// SU-07. R. L. Daugherty and J. B. Franzini, Fluid Mechanics with Engineering Applications, 8th ed.,
// Example 13.4, p. 462 (known: N).
TEST(check_values, SU_07_surge_of_30_cubic_feet_per_second_in_a_4_foot_penstock) {
  const double v = 30 * foot3 / circle(4 * foot);
  EXPECT_VALUE(surge(with_speed(3200 * foot, 999.8349), 4 * foot, rigid, v, 0.0) / psi, 102.9202, 102.9,
               0.05);
}

// SU-08. U.S. Army TM 5-813-9, fig. 4-5 (known: T). The source counts g = 32 ft/s2, which alone makes 0.55 %.
TEST(check_values, SU_08_surge_in_a_water_main) {
  const Liquid l = with_speed(2690 * foot, 1000.0);
  const double head = surge(l, 0.5, rigid, 6.48 * foot, 0.0) / (l.density * si::gravity) / foot;
  EXPECT_VALUE(head, 541.7783, 544.7, 0.6);
  EXPECT_VALUE(head + 20.0, 561.7783, 565.0, 0.65);  // over the 20 ft that stand on it
  EXPECT_VALUE(2 * 3400 * foot / wave_speed(l, 0.1, rigid, 3400 * foot), 2.527881041, 2.53, 0.1);
}

}  // namespace
}  // namespace poise::check
