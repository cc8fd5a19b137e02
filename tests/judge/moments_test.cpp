// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>

#include "judge/scene.hpp"

namespace poise {
namespace {

using scene::Fixture;
constexpr double bar = si::bar, kN = si::kN;

/// The clamp's force climbs by 1 kN/s from 2 s on, in "clamp", which begins at 1 s; the support's pressure by
/// 50 bar/s from 0 s on.
Fixture clamping() {
  Fixture f;
  f.times({0, 2, 6});
  f.step("support", 0, 1);
  f.step("clamp", 1, 6);
  f.column("K1.clamp_force", {0, 0, 4 * kN});
  f.column("R1.pressure", {0, 100 * bar, 300 * bar});
  return f;
}

TEST(Reached, the_time_counts_from_the_beginning_of_the_step) {
  Fixture f = clamping();
  f.require("clamped", Reached{f.above("K1.clamp_force", 2 * kN), 5.0}, {"clamp"});
  const Finding found = f.finding("clamped");  // 2 kN at 4 s, 3 s after the step began
  EXPECT_TRUE(found.held);
  EXPECT_DOUBLE_EQ(*found.margin, 2.0);
  EXPECT_DOUBLE_EQ(*found.share, 0.4);
  EXPECT_EQ(found.quantity, Quantity::time);
  EXPECT_DOUBLE_EQ(*found.time, 4.0);
  EXPECT_EQ(found.step, "clamp");
  EXPECT_EQ(found.part, "K1");
  EXPECT_EQ(found.found, "after 3.00 s");
  EXPECT_EQ(found.promised, "K1.clamp_force above 2 kN within 5 s from the start of \"clamp\"");
}

TEST(Reached, too_late_is_broken_by_the_time_it_is_late) {
  Fixture f = clamping();
  f.require("clamped", Reached{f.above("K1.clamp_force", 2 * kN), 2.5}, {"clamp"});
  const Finding found = f.finding("clamped");
  EXPECT_FALSE(found.held);
  EXPECT_DOUBLE_EQ(*found.margin, -0.5);
  EXPECT_DOUBLE_EQ(*found.share, -0.2);
}

TEST(Reached, just_in_time_holds) {
  Fixture f = clamping();
  f.require("clamped", Reached{f.above("K1.clamp_force", 2 * kN), 3.0}, {"clamp"});
  EXPECT_EQ(f.finding("clamped").margin, 0.0);
  EXPECT_TRUE(f.finding("clamped").held);
}

TEST(Reached, what_already_holds_at_the_beginning_took_no_time) {
  Fixture f = clamping();
  f.require("open", Reached{f.below("K1.clamp_force", 1 * kN), 3.0}, {"clamp"});
  EXPECT_EQ(f.finding("open").margin, 3.0);
}

TEST(Reached, never_says_how_near_it_came_in_the_signals_own_quantity) {
  Fixture f = clamping();
  f.require("clamped", Reached{f.above("K1.clamp_force", 5 * kN), 3.0}, {"clamp"});
  const Finding found = f.finding("clamped");
  EXPECT_FALSE(found.held);
  EXPECT_DOUBLE_EQ(*found.margin, -1 * kN);
  EXPECT_DOUBLE_EQ(*found.share, -0.2);
  EXPECT_EQ(found.quantity, Quantity::force);
  EXPECT_EQ(found.time, 6.0);
  EXPECT_EQ(found.found, "never: highest 4.00 kN");
}

TEST(Order, the_margin_is_the_time_between_first_and_then) {
  Fixture f = clamping();
  f.require("firm", Order{{f.above("R1.pressure", 75 * bar)}, {f.above("K1.clamp_force", 1 * kN)}, 0.5});
  const Finding found = f.finding("firm");  // 75 bar at 1.5 s, 1 kN at 3 s, gap 0.5 s
  EXPECT_TRUE(found.held);
  EXPECT_DOUBLE_EQ(*found.margin, 1.0);
  EXPECT_DOUBLE_EQ(*found.share, 1.0 / 2.0);  // of the 2 s since the step "clamp" began
  EXPECT_EQ(found.quantity, Quantity::time);
  EXPECT_DOUBLE_EQ(*found.time, 3.0);
  EXPECT_EQ(found.step, "clamp");
  EXPECT_EQ(found.part, "R1");
  EXPECT_EQ(found.promised, "R1.pressure above 75 bar at least 0.5 s before K1.clamp_force above 1 kN");
  EXPECT_EQ(found.found, "R1.pressure above 75 bar since 1.50 s, K1.clamp_force above 1 kN at 3.00 s");
}

TEST(Order, too_close_is_broken_by_the_time_that_lacks_in_the_gap) {
  Fixture f = clamping();
  f.require("firm", Order{{f.above("R1.pressure", 75 * bar)}, {f.above("K1.clamp_force", 1 * kN)}, 2.0});
  const Finding found = f.finding("firm");
  EXPECT_FALSE(found.held);
  EXPECT_DOUBLE_EQ(*found.margin, -0.5);
}

TEST(Order, first_not_yet_there_is_broken_by_what_it_lacks_at_that_moment) {
  Fixture f = clamping();
  f.column("R1.pressure", {0, 20 * bar, 100 * bar});  // 20 bar/s from 2 s on: 24 bar at 2.2 s
  f.require("firm", Order{{f.above("R1.pressure", 100 * bar)}, {f.above("K1.clamp_force", 0.2 * kN)}});
  const Finding found = f.finding("firm");
  EXPECT_FALSE(found.held);
  EXPECT_NEAR(*found.margin, -76 * bar, 1e-3);
  EXPECT_NEAR(*found.share, -0.76, 1e-9);
  EXPECT_EQ(found.quantity, Quantity::pressure);
  EXPECT_DOUBLE_EQ(*found.time, 2.2);
  EXPECT_EQ(found.part, "R1");
  EXPECT_EQ(found.found,
            "at 2.20 s, when K1.clamp_force passes 0.2 kN, R1.pressure is 24.0 bar (needs 100 bar)");
}

TEST(Order, the_worst_of_several_first_conditions_decides_by_its_share) {
  Fixture f = clamping();
  f.column("C1.position",
           {0, 0, 0.08});  // 20 mm/s from 2 s on: 20 mm at 3 s of the 50 needed; R1 has 150 of 200 bar
  f.require("firm", Order{{f.above("R1.pressure", 200 * bar), f.above("C1.position", 0.05)},
                          {f.above("K1.clamp_force", 1 * kN)}});
  const Finding found = f.finding("firm");
  EXPECT_EQ(found.part, "C1");
  EXPECT_NEAR(*found.margin, -0.03, 1e-12);
  EXPECT_NEAR(*found.share, -0.6, 1e-9);
}

TEST(Order, all_first_conditions_must_hold_together_and_the_last_to_come_counts) {
  Fixture f = clamping();
  f.column("C1.position", {0, 0, 0.08});  // 10 mm at 2.5 s
  f.require("firm", Order{{f.above("R1.pressure", 75 * bar), f.above("C1.position", 0.01)},
                          {f.above("K1.clamp_force", 1 * kN)}});
  const Finding found = f.finding("firm");
  EXPECT_DOUBLE_EQ(*found.margin, 0.5);
  EXPECT_EQ(found.part, "C1");
}

TEST(Order, holding_counts_only_since_it_last_broke_off) {
  Fixture f;
  f.times({0, 1, 2, 3, 4});
  f.step("clamp", 0, 4);
  f.column("R1.pressure", {200 * bar, 200 * bar, 0, 200 * bar, 200 * bar});  // back at 100 bar at 2.5 s
  f.column("K1.clamp_force", {0, 0, 0, 0, 2 * kN});                          // 1 kN at 3.5 s
  f.require("firm", Order{{f.above("R1.pressure", 100 * bar)}, {f.above("K1.clamp_force", 1 * kN)}, 2.0});
  EXPECT_DOUBLE_EQ(*f.finding("firm").margin, -1.0);
}

TEST(Order, at_a_jump_it_counts_what_first_is_after_it) {
  Fixture f;
  f.times({0, 1, 1, 2});
  f.step("support", 0, 1);
  f.step("clamp", 1, 2);
  f.column("K1.clamp_force", {0, 0, 2 * kN, 2 * kN});  // there at 1 s, at once
  f.require("firm", Order{{f.above("R1.pressure", 100 * bar)}, {f.above("K1.clamp_force", 1 * kN)}});
  f.column("R1.pressure", {150 * bar, 150 * bar, 60 * bar, 60 * bar});
  EXPECT_FALSE(f.finding("firm").held);
  EXPECT_DOUBLE_EQ(*f.finding("firm").margin, -40 * bar);
  f.column("R1.pressure", {60 * bar, 60 * bar, 150 * bar, 150 * bar});
  EXPECT_TRUE(f.finding("firm").held);
  EXPECT_EQ(f.finding("firm").margin, 0.0);  // together, and no gap is asked for
}

TEST(Order, the_earliest_of_several_then_conditions_counts) {
  Fixture f = clamping();
  f.require("firm", Order{{f.above("R1.pressure", 50 * bar)},
                          {f.above("K1.clamp_force", 3 * kN), f.above("R1.pressure", 150 * bar)}});
  EXPECT_DOUBLE_EQ(*f.finding("firm").margin, 2.0);  // 50 bar at 1 s; 150 bar at 3 s, 3 kN only at 5 s
}

TEST(Order, then_is_looked_for_in_its_steps_and_first_may_be_older) {
  Fixture f = clamping();
  f.require("firm", Order{{f.above("R1.pressure", 25 * bar)}, {f.above("R1.pressure", 40 * bar)}}, {"clamp"});
  const Finding found = f.finding("firm");  // 25 bar since 0.5 s; already 50 bar when "clamp" begins at 1 s
  EXPECT_DOUBLE_EQ(*found.margin, 0.5);
  EXPECT_EQ(found.step, "clamp");
}

TEST(Order, an_order_that_is_never_seen_is_not_proven) {
  Fixture f = clamping();
  f.require("firm", Order{{f.above("R1.pressure", 75 * bar)}, {f.above("K1.clamp_force", 9 * kN)}});
  const Finding found = f.finding("firm");
  EXPECT_FALSE(found.held);
  EXPECT_EQ(found.margin, std::nullopt);
  EXPECT_EQ(found.share, std::nullopt);
  EXPECT_EQ(found.found, "what must come after was never seen: K1.clamp_force highest 4.00 kN");
}

}  // namespace
}  // namespace poise
