// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A line that rises: the oil's weight counts, the work of lifting is no heat, and the books close.
#include <gtest/gtest.h>

#include "parts/laws.hpp"
#include "support/trade.hpp"

namespace poise::workshop {
namespace {

Trace lifted(double rise, double inertia) {
  Bench b;
  b.plan.oil.air = 0.0;  // or its air would be squeezed on the way and the oil weigh 0.4 % more
  b.part("T1", "reservoir", {{"usable_oil", 50 * si::litre}});
  b.part("P1", "pump",
         {{"flow", 10 * si::litre_per_minute},
          {"volumetric_efficiency", 1.0},
          {"mechanical_efficiency", 1.0},
          {"rated_pressure", 250 * si::bar}});
  b.part("L1", "tube",
         {{"bore", 10 * si::mm}, {"length", 20.0}, {"rise", rise}, {"segments", 4.0}, {"inertia", inertia}});
  b.join({"T1.T", "P1.S"});
  b.join({"P1.P", "L1.A"});
  b.join({"L1.B", "T1.T"});
  b.step("pump", 5.0, {{"P1", "running", 1.0, 0.5}});
  Trace t = b.run({"L1.A.pressure"});
  expect_closed_books(t);
  return t;
}

TEST(rising_line, takes_the_weight_of_its_oil_from_the_pressure) {
  const double rise = 15.0,
               weight = OilData{}.density_15 * (1 - 25 * OilData{}.expansivity) * si::gravity * rise;
  for (double inertia : {0.0, 1.0}) {
    const Trace level = lifted(0.0, inertia), up = lifted(rise, inertia), down = lifted(-rise, inertia);
    const double p = last(level, "L1.A.pressure");
    EXPECT_NEAR(last(up, "L1.A.pressure") - p, weight, 1e-3 * weight);
    EXPECT_NEAR(p - last(down, "L1.A.pressure"), weight, 1e-3 * weight);
    // The pump's work makes the heat of a level line and lifts the oil; lifting is taken off the work put in.
    EXPECT_NEAR(up.books.flow_heat, level.books.flow_heat, 0.01 * level.books.flow_heat);
  }
}

}  // namespace
}  // namespace poise::workshop
