// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What turns and what goes straight do not join.
#include <gtest/gtest.h>

#include "support/workshop.hpp"

namespace poise {
namespace {

using workshop::Bench;

Bench motor_and_pump() {
  Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 10 * si::litre}});
  b.part("M1", "electric_motor", {{"rated_power", 2200.0}});
  b.part("P1", "shaft_pump", {{"displacement", 4 * si::cm3}, {"rated_pressure", 200 * si::bar}});
  b.join({"T1.T", "P1.S"});
  b.plug("P1.P");
  return b;
}

TEST(shafts, turn_with_shafts) {
  Bench b = motor_and_pump();
  b.join({"M1.shaft", "P1.shaft"});
  EXPECT_TRUE(faults_of(b.plan).empty());
}

TEST(shafts, do_not_join_to_a_rod) {
  Bench b = motor_and_pump();
  b.part("L1", "mass", {{"mass", 100.0}});
  b.join({"M1.shaft", "P1.shaft"});
  b.join({"P1.shaft", "L1.rod"});
  const auto faults = faults_of(b.plan);
  ASSERT_EQ(faults.size(), 1u);
  EXPECT_EQ(faults[0].sentence, "P1.shaft turns and L1.rod goes straight: they cannot be joined");
}

TEST(shafts, of_a_pump_needs_something_that_drives_it) {
  const Bench b = motor_and_pump();
  const auto faults = faults_of(b.plan);
  ASSERT_EQ(faults.size(), 1u);
  EXPECT_EQ(faults[0].sentence,
            "P1.shaft (what drives it) is connected to nothing; join it to something in [[lines]]");
}

}  // namespace
}  // namespace poise
