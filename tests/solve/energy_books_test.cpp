// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What a share of the energy is taken of where no pump puts it in: a load that falls with nothing to hold it.
// Invented data.
#include <gtest/gtest.h>

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

}  // namespace
}  // namespace poise
