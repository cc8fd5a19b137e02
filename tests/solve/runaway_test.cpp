// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A rod that nothing holds: the run ends with words, not with a place beyond the moon. Invented data.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/trade.hpp"

namespace poise {
namespace {

using namespace workshop;
using testing::HasSubstr;

constexpr double bound = 1000.0;  // m/s

Bench loose_mass(double mass) {
  Bench b;
  add_power_unit(b, 2 * si::litre_per_minute,
                 {.cracking = 250 * si::bar, .rated_flow = 10 * si::litre_per_minute});
  b.part("M1", "mass", {{"mass", mass}, {"slope", 0.0}});
  b.part("F1", "force", {{"force", 0.0}});
  b.join({"M1.rod", "F1.rod"});
  return b;
}

// v = force/mass·t.
TEST(runaway, ends_the_run_at_the_speed_that_nothing_of_this_trade_has) {
  constexpr double mass = 100.0, force = -1e5;
  Bench b = loose_mass(mass);
  b.step("rest", 1.0);
  b.step("pull", 1000.0, {{"F1", "force", force}});
  const Trace t = b.run({"M1.speed"});
  ASSERT_TRUE(t.halt);
  EXPECT_TRUE(t.halt->by_the_machine());
  EXPECT_NEAR(t.halt->time, 1.0 + bound * mass / -force, 1e-3);
  EXPECT_NEAR(last(t, "M1.speed"), bound, 0.1);
  EXPECT_THAT(t.halt->sentence, HasSubstr("M1.rod moves faster than anything of this trade"));
}

TEST(runaway, of_a_load_that_is_pulled_away_before_the_cycle_begins_is_told_then) {
  Bench b = loose_mass(100.0);
  b.set("F1", "force", -1e5);
  b.step("rest", 1.0);
  const solve::RunOptions options;
  const Trace t = b.run({"M1.speed"}, options);
  ASSERT_TRUE(t.halt);
  // Told behind the step of calculation in which it came to pass.
  const double then = -options.settle_at_most + bound / 1000.0;
  EXPECT_GE(t.halt->time, then - 1e-3);
  EXPECT_LE(t.halt->time, 0.0);
  EXPECT_THAT(t.halt->sentence, HasSubstr("M1.rod moves faster"));
}

TEST(runaway, leaves_what_is_slower_alone) {
  Bench b = loose_mass(100.0);
  b.step("pull", 0.9, {{"F1", "force", -1e5}});  // to 900 m/s
  const Trace t = b.run({"M1.speed"});
  EXPECT_FALSE(t.halt);
  EXPECT_NEAR(last(t, "M1.speed"), 900.0, 0.1);
}

}  // namespace
}  // namespace poise
