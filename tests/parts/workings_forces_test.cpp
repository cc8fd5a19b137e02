// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What actuators, pumps, motors and stores write down is what their laws do.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "parts/kind.hpp"
#include "support/duties.hpp"
#include "support/one_part.hpp"
#include "support/workshop.hpp"

namespace poise {
namespace {

using workshop::duty_of;
using workshop::OnePart;
using workshop::result;

constexpr double litre = si::litre_per_minute;
constexpr double exact = 1e-9;  // relative; both sides are closed forms

std::vector<Working> workings_of(const OnePart& part, const workshop::Steady& steady) {
  return part.kind().workings(part.values(), part.oil(), duty_of(steady));
}

/// A pump that has pushed a cylinder to the end of its stroke and holds it there under a relief.
workshop::Bench held(std::string_view kind, workshop::Bench::Numbers numbers) {
  workshop::Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 5 * si::litre}});
  b.part("P1", "pump", {{"flow", 4 * litre}, {"rated_pressure", 250e5}});
  b.part("V1", "relief", {{"setting", 150e5}, {"rated_flow", 12 * litre}});
  b.part("C1", kind, numbers);
  b.join({"T1.T", "P1.S", "V1.T"});
  b.join({"P1.P", "V1.P", "C1.A"});
  b.step("out and held", 10.0, {{"P1", "running", 1.0}});
  return b;
}

// Given a jack with a return spring, held out by 150 bar and more; when it has come to rest, then push,
// buckling load and their quotient are those of its own outputs. At rest no seal rubs: the rod creeps by less
// than a thousandth of the speed scale of its friction.
TEST(workings_of_a_cylinder, give_the_push_and_the_buckling_load_of_a_held_run) {
  const auto b = held("single_acting_cylinder", {{"bore", 40e-3},
                                                 {"rod", 28e-3},
                                                 {"stroke", 0.25},
                                                 {"spring_preload", 200.0},
                                                 {"spring_rate", 1000.0},
                                                 {"closed_length", 0.45}});
  const Trace trace =
      b.run({"C1.A.pressure", "C1.rod.position", "C1.force", "C1.buckling_load", "C1.buckling_share"});
  const double pressure = workshop::last(trace, "C1.A.pressure"), force = workshop::last(trace, "C1.force");
  const double out = workshop::last(trace, "C1.rod.position");
  ASSERT_GT(out, 0.249);
  const auto all = find_kind("single_acting_cylinder")
                       ->workings(b.values("C1"), Oil{OilData{}},
                                  duty_of({.pressure{pressure}, .flow{0.0}, .position{out}, .speed{0.0}}));
  EXPECT_NEAR(result(all, "F"), force, 1e-3 * force);
  EXPECT_NEAR(result(all, "F"), pressure * std::numbers::pi / 4 * 0.04 * 0.04 - 200.0 - 1000.0 * out,
              exact * force);
  const double buckling = workshop::last(trace, "C1.buckling_load");
  EXPECT_NEAR(result(all, "F_E"), buckling, exact * buckling);  // 0.7 m, one end free: slender
  EXPECT_NEAR(1.0 / result(all, "S"), workshop::last(trace, "C1.buckling_share"), 1e-3);
}

// The same for a cylinder with oil on both sides: B stands open to the reservoir.
TEST(workings_of_a_cylinder, give_the_push_of_a_double_acting_one) {
  auto b = held("double_acting_cylinder", {{"bore", 50e-3}, {"rod", 28e-3}, {"stroke", 0.2}});
  b.join({"C1.B", "T1.T"});
  const Trace trace =
      b.run({"C1.A.pressure", "C1.B.pressure", "C1.rod.position", "C1.force", "C1.A.flow", "C1.rod.speed"});
  const double force = workshop::last(trace, "C1.force"), pressure = workshop::last(trace, "C1.A.pressure");
  const double flow = workshop::at(trace, "C1.A.flow", 2.0), speed = workshop::at(trace, "C1.rod.speed", 2.0);
  const auto all = find_kind("double_acting_cylinder")
                       ->workings(b.values("C1"), Oil{OilData{}},
                                  duty_of({.pressure{pressure, 0.0}, .flow{flow, 0.0}, .position{0.2}}));
  EXPECT_NEAR(result(all, "F_out"), force, 1e-3 * force);
  ASSERT_GT(speed, 0.01);
  EXPECT_NEAR(result(all, "v"), speed, 1e-6 * speed);  // its piston seal is tight
  EXPECT_NEAR(result(all, "φ"), 2500.0 / (2500.0 - 784.0), exact);
  EXPECT_NEAR(result(all, "p_B"), pressure * 2500.0 / (2500.0 - 784.0), exact * 1e8);
  EXPECT_THROW(result(all, "F_in"), std::runtime_error);  // nothing pulls
}

// A jack without a rod diameter has no buckling load, one that pulls needs none.
TEST(workings_of_a_cylinder, leave_buckling_out_where_no_rod_is_given_or_pushed) {
  OnePart jack("single_acting_cylinder", {{"bore", 40e-3}, {"stroke", 0.1}});
  const workshop::Steady steady{.pressure{100e5}, .position{0.1}};
  EXPECT_THROW(result(workings_of(jack, steady), "S"), std::runtime_error);
  OnePart puller("single_acting_cylinder", {{"bore", 40e-3}, {"stroke", 0.1}, {"rod", 20e-3}, {"acts", 1.0}});
  EXPECT_THROW(result(workings_of(puller, steady), "S"), std::runtime_error);
  // π/4·(40² − 20²) mm2 · 100 bar
  EXPECT_NEAR(result(workings_of(puller, steady), "F"), std::numbers::pi / 4 * (1600e-6 - 400e-6) * 100e5,
              1e-6);
}

// A rod that is too stout for Euler fails by Johnson's parabola, as its own output has it.
TEST(workings_of_a_cylinder, give_the_buckling_load_of_a_stout_rod) {
  OnePart jack("single_acting_cylinder", {{"bore", 50e-3}, {"stroke", 0.1}, {"rod", 40e-3}, {"hole", 20e-3}});
  jack.here.body[0] = {0.1, 0.0};
  jack.press(0, 200e5);
  const auto all = workings_of(jack, {.pressure{200e5}, .position{0.1}});
  EXPECT_NEAR(result(all, "F_k"), jack.report(1), exact * jack.report(1));
  EXPECT_NEAR(1.0 / result(all, "S"), jack.report(2), exact);
}

// The clamp stands where nothing moves it: its tip presses with what is written down but for the part's give,
// some 25 N of spring over 0.2 mm.
TEST(workings_of_a_swing_clamp, give_the_force_at_which_its_piston_stands_still) {
  OnePart clamp(
      "swing_clamp",
      {{"clamp_area", 6e-4}, {"swing_stroke", 10e-3}, {"clamp_stroke", 14e-3}, {"arm_factor", 0.8}});
  clamp.press(0, 150e5);
  double low = 17e-3, high = 20e-3;
  for (int i = 0; i < 100; ++i) {
    clamp.here.body[0].position = 0.5 * (low + high);
    (clamp.row(2) > 0.0 ? low : high) = 0.5 * (low + high);
  }
  const double force = result(workings_of(clamp, {.pressure{150e5, 0.0}}), "F");
  EXPECT_NEAR(force, clamp.report(0), 1e-4 * force);
}

TEST(workings_of_a_work_support, give_the_capacity_of_its_output) {
  OnePart support("work_support",
                  {{"capacity", 10e3}, {"capacity_pressure", 350e5}, {"lock_pressure", 50e5}});
  support.press(0, 200e5);
  EXPECT_NEAR(result(workings_of(support, {.pressure{200e5}}), "C"), support.report(0), exact * 1e4);
  // Below its locking pressure it holds nothing, and nothing is written.
  EXPECT_THROW(result(workings_of(support, {.pressure{40e5}}), "C"), std::runtime_error);
}

TEST(workings_of_pumps, give_the_delivery_and_shaft_power_of_their_outputs) {
  struct Case {
    OnePart pump;
    int power, delivery;
  };
  const std::vector<Case> all{
      {{"pump",
        {{"displacement", 4e-6},
         {"rated_pressure", 250e5},
         {"mechanical_efficiency", 0.9},
         {"running", 1.0}}},
       0,
       1},
      {{"two_stage_pump",
        {{"low_pressure_flow", 6 * litre},
         {"high_pressure_flow", 1 * litre},
         {"rated_pressure", 700e5},
         {"running", 1.0}}},
       0,
       1},
      {{"air_driven_pump", {{"ratio", 60.0}, {"flow", 1 * litre}, {"air_pressure", 6e5}}}, -1, 1},
      {{"shaft_pump", {{"displacement", 8e-6}, {"rated_pressure", 250e5}}}, 1, 2},
  };
  for (const Case& c : all) {
    OnePart pump = c.pump;
    pump.press(1, 200e5);
    pump.here.body[0].speed = 2.0 * std::numbers::pi * 1450.0 / 60.0;
    const auto workings = workings_of(pump, {.pressure{0.0, 200e5}});
    EXPECT_NEAR(result(workings, "Q"), pump.report(c.delivery), exact * litre) << pump.kind().about.kind;
    if (c.power >= 0) {
      EXPECT_NEAR(result(workings, "P"), pump.report(c.power), exact * 1e4) << pump.kind().about.kind;
    }
  }
}

// The corner between pressure and power control is rounded by no more than half a percent of full stroke, the
// band's by a hundredth of it: at its middle nothing of both is left.
TEST(workings_of_pumps, give_the_greatest_shaft_power_of_a_variable_one) {
  OnePart pump("variable_pump",
               {{"flow", 20 * litre}, {"setting", 200e5}, {"rated_pressure", 250e5}, {"running", 1.0}});
  pump.press(1, 190e5);  // setting less band
  const auto all = workings_of(pump, {.pressure{0.0, 190e5, 0.0}});
  EXPECT_NEAR(result(all, "P"), pump.report(0), exact * 1e4);
  EXPECT_NEAR(result(all, "Q"), pump.report(1), exact * litre);
  EXPECT_NEAR(result(all, "Q_L"), pump.report(3), exact * litre);
}

TEST(workings_of_pumps, give_the_effort_at_the_handle) {
  OnePart pump("hand_pump", {{"stroke_volume", 2.5e-6}, {"rated_pressure", 700e5}, {"rate", 0.5}});
  pump.press(1, 500e5);
  const auto all = workings_of(pump, {.pressure{0.0, 500e5}});
  EXPECT_NEAR(result(all, "F"), pump.report(0), exact * 1e3);
  EXPECT_NEAR(result(all, "V_e") * 0.5, pump.report(1), exact * 1e-6);
}

TEST(workings_of_motors, give_the_torque_and_the_flow_of_their_laws) {
  OnePart motor("hydraulic_motor", {{"displacement", 25e-6}, {"rated_pressure", 250e5}});
  const double speed = 2.0 * std::numbers::pi * 10.0;
  motor.press(0, 180e5);
  motor.here.body[0].speed = speed;
  const auto all = workings_of(motor, {.pressure{180e5, 0.0, 0.0}, .speed{speed}});
  EXPECT_NEAR(result(all, "M"), motor.report(0), exact * 100.0);
  // The oil that turns it has the density of A, that which leaks too.
  EXPECT_NEAR(result(all, "Q_A"), motor.flow(0), exact * litre);
}

// Three phases: at the breakdown slip the motor gives its breakdown torque; at rated speed, its rated power
// but for the share in s³ that helps at the start.
TEST(workings_of_motors, give_the_breakdown_torque_of_an_electric_one) {
  OnePart motor("electric_motor", {{"rated_power", 2200.0}, {"running", 1.0}, {"starting_ratio", 2.5}});
  const auto all = workings_of(motor, {});
  EXPECT_NEAR(result(all, "M_r"), 2200.0 / (2.0 * std::numbers::pi * 1450.0 / 60.0), exact * 10.0);
  EXPECT_NEAR(result(all, "M_b"), 2.5 * result(all, "M_r"), exact * 10.0);
}

// Given 1 L of nitrogen at 60 bar, charged at 20 °C and worked at 40 °C; when the oil that the calculation
// names is in it, then its gas stands at the pressure that it was named for (gas law).
TEST(workings_of_an_accumulator, give_the_oil_that_it_holds_at_a_pressure) {
  OnePart accumulator("accumulator",
                      {{"gas_volume", 1e-3}, {"precharge", 60e5}, {"precharge_temperature", 293.15}});
  const auto all =
      accumulator.kind().workings(accumulator.values(), accumulator.oil(),
                                  Duty{.pressure{{90e5, 180e5}}, .flow{}, .position{}, .speed{}, .output{}});
  const double area = std::pow(1e-3, 2.0 / 3.0);
  accumulator.here.body[0].position = result(all, "V") / area;
  EXPECT_NEAR(accumulator.report(0), 180e5, exact * 180e5);
  accumulator.here.body[0].position = (result(all, "V") - result(all, "ΔV")) / area;
  EXPECT_NEAR(accumulator.report(0), 90e5, exact * 180e5);
  accumulator.here.body[0].position = 0.0;
  EXPECT_NEAR(result(all, "p_0"), accumulator.report(0), exact * 60e5);
}

// Lowest at 20 bar, below the precharge: what it gives back is all that it holds, no more.
TEST(workings_of_an_accumulator, give_back_no_more_than_it_holds) {
  OnePart accumulator("accumulator", {{"gas_volume", 1e-3}, {"precharge", 60e5}});
  const auto all =
      accumulator.kind().workings(accumulator.values(), accumulator.oil(),
                                  Duty{.pressure{{20e5, 180e5}}, .flow{}, .position{}, .speed{}, .output{}});
  EXPECT_DOUBLE_EQ(result(all, "ΔV"), result(all, "V"));
  EXPECT_THROW(result(workings_of(accumulator, {.pressure{50e5}}), "V"), std::runtime_error);
}

// The pistons stand still where the forces on them are in balance: without spring, at rest no seal rubs.
TEST(workings_of_an_intensifier, give_the_pressure_at_which_its_pistons_stand) {
  OnePart intensifier("intensifier", {{"ratio", 4.0}, {"plunger", 20e-3}, {"stroke", 50e-3}});
  intensifier.press(0, 100e5);
  intensifier.press(2, 3e5);
  const double high = result(workings_of(intensifier, {.pressure{100e5, 0.0, 3e5}}), "p_B");
  EXPECT_NEAR(high, 4.0 * 100e5 - 3.0 * 3e5, exact * high);
  intensifier.press(1, high);
  intensifier.here.body[0].position = 20e-3;
  EXPECT_NEAR(intensifier.row(3), 0.0, 1e-6);  // N
}

}  // namespace
}  // namespace poise
