// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What a share of the energy is taken of where no pump puts it in: a load that falls with nothing to hold it.
// Invented data.
#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "solve/equations.hpp"
#include "solve/tightening.hpp"
#include "support/trade.hpp"

namespace poise {
namespace {

using namespace workshop;

// No pump puts anything in and nothing is lost: ½·m·(v₁² − v₀²) comes out of the height, and by that the
// books are measured.
TEST(books, of_a_falling_load_are_measured_by_what_height_gives_to_motion) {
  constexpr double mass = 1000.0;
  Bench b;
  add_power_unit(b, 2 * si::litre_per_minute,
                 {.cracking = 250 * si::bar, .rated_flow = 10 * si::litre_per_minute});
  b.part("M1", "mass", {{"mass", mass}});
  b.part("B1", "spring", {{"rate", 1e5}, {"free_travel", 1.0}});  // above it, never touched
  b.join({"M1.rod", "B1.rod"});
  b.step("fall", 0.5);
  const Trace t = b.run({"M1.position", "M1.speed"});
  const double v0 = at(t, "M1.speed", 0.0), v1 = last(t, "M1.speed");
  ASSERT_NEAR(v1 - v0, -0.5 * si::gravity, 1e-4);
  const double into_motion = 0.5 * mass * (v1 * v1 - v0 * v0);
  EXPECT_NEAR(t.books.put_in, into_motion, 1e-6 * into_motion);
  // It has fallen 2 km while the circuit came to rest, and such a place is good to 3e-5: mass·gravity·6 cm
  // are 0.6 kJ.
  EXPECT_LT(std::abs(t.books.stored_gain), 2.0 * 3e-5 * mass * si::gravity * -at(t, "M1.position", 0.0));
  EXPECT_NEAR(t.books.energy_share(), std::abs(t.books.energy_residual()) / into_motion, 1e-9);
  expect_closed_books(t);
}

// A column of oil that falls turns the lines' lifting round: 2092 J come out of the stores by the shaft, 5.3
// mJ are missing.
TEST(books, count_what_the_stores_gave_away) {
  const Books books{.shaft = -2092.0, .flow_heat = 0.65, .stored_gain = -2092.655};
  EXPECT_NEAR(books.energy_residual(), 0.005, 1e-9);
  EXPECT_NEAR(books.energy_share(), 0.005 / 2092.0, 1e-12);
}

// In a volume sucked empty to 1e-10 of an atmosphere the digits of its pressure, −atmosphere, no longer say
// how little that is; its strain energy is still what the oil that left has carried away, ∫h·dm.
TEST(books, of_a_volume_sucked_empty_lose_what_its_oil_carries_away) {
  constexpr double volume = 15e-6;
  Bench b;
  b.part("Q1", "gauge", {{"range", 10 * si::bar}, {"port_volume", volume}});
  add_power_unit(b, 2 * si::litre_per_minute,
                 {.cracking = 250 * si::bar, .rated_flow = 10 * si::litre_per_minute});
  b.plug("Q1.M");
  for (const Remark& r : faults_of(b.plan)) ADD_FAILURE() << r.sentence;
  const Circuit circuit = build(b.plan);
  const Oil oil(b.plan.oil);
  solve::Equations equations(circuit);
  const int node = circuit.parts[circuit.find_part("Q1")].oil[0];
  std::vector<double> y = equations.start();
  double& mass = y[equations.layout().mass(node)];
  const double begin = volume * oil.density(-si::atmosphere * (1.0 - 1e-10)).value, end = 0.2 * begin;
  const auto energy = [&](double now) {
    mass = now;
    EXPECT_TRUE(equations.observe(0.0, y.data()));
    return equations.stores(y.data()).all();
  };
  constexpr int steps = 100;
  const double at_begin = energy(begin);
  double carried = 0.0, now = at_begin;
  for (int i = 0; i < steps; ++i) {
    const double h = oil.enthalpy(equations.pressure(node));
    now = energy(begin + (end - begin) * (i + 1) / steps);
    carried += 0.5 * (h + oil.enthalpy(equations.pressure(node))) * (end - begin) / steps;
  }
  EXPECT_NEAR(now - at_begin, carried, 1e-3 * std::abs(carried));
}

// A drip of 10 mm3 into a shut volume of 50 cm3 is worth less than a millijoule: less than a run is asked to
// tell apart at first.
TEST(books, of_less_energy_than_a_run_tells_apart_are_closed_by_a_finer_run) {
  Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 5 * si::litre}});
  b.part("P1", "pump",
         {{"flow", 0.6 * si::litre_per_minute},
          {"volumetric_efficiency", 1.0},
          {"rated_pressure", 250 * si::bar}});
  b.part("Q1", "gauge", {{"range", 10 * si::bar}, {"port_volume", 50e-6}});
  b.join({"T1.T", "P1.S"});
  b.join({"P1.P", "Q1.M"});
  b.step("drip", 1e-3, {{"P1", "running", 1.0, 1e-4}});
  const Trace t = b.run({"Q1.M.pressure"});
  EXPECT_LT(std::abs(t.books.shaft), 1e-3);
  EXPECT_GT(std::abs(t.books.shaft), 1e-5);
  expect_closed_books(t);
}

TEST(tightest, goes_as_far_as_digits_carry_for_a_short_run_only) {
  Trace open;
  open.books = {.shaft = 1.0, .put_in = 1.0, .flow_heat = 0.9};
  ASSERT_GT(open.books.energy_share(), Books::energy_closes);
  open.solver_steps = 1000;
  EXPECT_EQ(solve::tightest(open), 1e5);
  open.solver_steps = 1'000'000;
  EXPECT_EQ(solve::tightest(open), 100.0);
  open.halt = Halt{Halt::Why::stuck, 1.0, "given up"};
  EXPECT_EQ(solve::tightest(open), 1.0);
  open.solver_steps = 1000;
  EXPECT_EQ(solve::tightest(open), 1e5);
  open.halt->why = Halt::Why::stopped;
  EXPECT_EQ(solve::tightest(open), 1.0);
  open.halt.reset();
  open.books.flow_heat = 1.0;
  EXPECT_EQ(solve::tightest(open), 1.0);
}

}  // namespace
}  // namespace poise
