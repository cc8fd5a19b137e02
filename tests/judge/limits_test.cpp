// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "judge/scene.hpp"

namespace poise {
namespace {

using scene::Fixture;
constexpr double bar = si::bar, mm = si::mm;

/// Pressure at C1.A rises to 231 bar at 2 s, in "press", and falls to 50 bar while "back" lasts.
Fixture pressing() {
  Fixture f;
  f.times({0, 1, 2, 3, 4});
  f.step("press", 0, 3);
  f.step("back", 3, 4);
  f.column("C1.A.pressure", {0, 100 * bar, 231 * bar, 100 * bar, 50 * bar});
  return f;
}

TEST(Never, the_margin_is_what_is_left_between_the_highest_value_and_the_limit) {
  Fixture f = pressing();
  f.require("safe", Never{f.signal("C1.A.pressure"), true, 250 * bar});
  const Finding found = f.finding("safe");
  EXPECT_TRUE(found.held);
  EXPECT_DOUBLE_EQ(*found.margin, 19 * bar);
  EXPECT_DOUBLE_EQ(*found.share, 19.0 / 250.0);
  EXPECT_EQ(found.quantity, Quantity::pressure);
  EXPECT_EQ(found.time, 2.0);
  EXPECT_EQ(found.step, "press");
  EXPECT_EQ(found.part, "C1");
  EXPECT_EQ(found.promised, "C1.A.pressure never above 250 bar");
  EXPECT_EQ(found.found, "highest 231 bar");
}

TEST(Never, a_lower_limit_is_kept_by_the_lowest_value_within_the_steps_that_are_asked_for) {
  Fixture f = pressing();
  f.require("", Never{f.signal("C1.A.pressure"), false, 80 * bar}, {"back"});
  const Finding found = f.finding("C1.A.pressure never below 80 bar, during \"back\"");
  EXPECT_FALSE(found.held);
  EXPECT_DOUBLE_EQ(*found.margin,
                   -30 * bar);  // 50 at the end of "back"; the 0 bar of "press" is not asked for
  EXPECT_DOUBLE_EQ(*found.share, -30.0 / 80.0);
  EXPECT_EQ(found.time, 4.0);
  EXPECT_EQ(found.step, "back");
}

TEST(Never, a_step_that_ends_between_two_rows_is_judged_on_the_straight_line_between_them) {
  Fixture f;
  f.times({0, 4});
  f.step("press", 0, 1);
  f.step("hold", 1, 4);
  f.column("C1.A.pressure", {0, 400 * bar});
  f.require("press", Never{f.signal("C1.A.pressure"), true, 150 * bar}, {"press"});
  const Finding found = f.finding("press");
  EXPECT_DOUBLE_EQ(*found.margin, 50 * bar);  // 100 bar at 1 s
  EXPECT_EQ(found.time, 1.0);
  EXPECT_EQ(found.step, "press");
}

TEST(Never, a_value_at_the_limit_holds_with_no_margin) {
  Fixture f = pressing();
  f.require("edge", Never{f.signal("C1.A.pressure"), true, 231 * bar});
  const Finding found = f.finding("edge");
  EXPECT_TRUE(found.held);
  EXPECT_EQ(found.margin, 0.0);
}

TEST(Never, a_limit_of_zero_leaves_a_margin_but_no_share) {
  Fixture f = pressing();
  f.column("C1.A.pressure", {0, 1, 2, -0.5 * bar, 0});
  f.require("no suction", Never{f.signal("C1.A.pressure"), false, 0.0});
  const Finding found = f.finding("no suction");
  EXPECT_DOUBLE_EQ(*found.margin, -0.5 * bar);
  EXPECT_EQ(found.share, std::nullopt);
}

TEST(Never, a_value_that_rounds_to_the_broken_limit_is_shown_in_more_figures) {
  Fixture f = pressing();
  f.column("C1.A.pressure", {0, 0, 250.2 * bar, 0, 0});
  f.require("edge", Never{f.signal("C1.A.pressure"), true, 250 * bar});
  EXPECT_EQ(f.finding("edge").found, "highest 250.2 bar");
}

TEST(Never, a_stated_limit_is_repeated_as_it_was_stated) {
  Fixture f = pressing();
  f.job.world = units::us();
  f.require("", Never{f.signal("C1.A.pressure"), true, 1015 * 6894.757293168361});
  EXPECT_EQ(f.finding("C1.A.pressure never above 1015 psi").found,
            "highest 3350 psi");  // 231e5 / 6894.757 = 3350.4
}

TEST(Never, a_jump_between_two_steps_belongs_to_the_second) {
  Fixture f;
  f.times({0, 1, 1, 2});
  f.step("before", 0, 1);
  f.step("after", 1, 2);
  f.column("C1.A.pressure", {10 * bar, 10 * bar, 90 * bar, 20 * bar});
  f.require("first", Never{f.signal("C1.A.pressure"), true, 50 * bar}, {"before"});
  f.require("second", Never{f.signal("C1.A.pressure"), true, 50 * bar}, {"after"});
  EXPECT_DOUBLE_EQ(*f.finding("first").margin, 40 * bar);
  EXPECT_DOUBLE_EQ(*f.finding("second").margin, -40 * bar);
}

TEST(Never, a_signal_without_a_number_keeps_no_promise) {
  Fixture f = pressing();
  f.column("C1.A.pressure", {0, 0, std::numeric_limits<double>::quiet_NaN(), 0, 0});
  f.require("safe", Never{f.signal("C1.A.pressure"), true, 250 * bar});
  const Finding found = f.finding("safe");
  EXPECT_FALSE(found.held);
  EXPECT_EQ(found.margin, std::nullopt);
  EXPECT_EQ(found.found, "no value of C1.A.pressure");
}

TEST(Never, a_trace_without_the_signal_is_a_mistake_of_ours_and_is_thrown) {
  Fixture f = pressing();
  f.require("safe", Never{f.signal("C1.A.pressure"), true, 250 * bar});
  EXPECT_THROW(judge(f.job, f.trace), std::logic_error);
}

TEST(Band, the_nearer_edge_decides_and_the_share_is_of_half_the_width) {
  Fixture f = pressing();
  f.column("C1.A.pressure", {200 * bar, 190 * bar, 195 * bar, 214 * bar, 200 * bar});
  f.require("band", Band{f.signal("C1.A.pressure"), 180 * bar, 220 * bar});
  const Finding held = f.finding("band");
  EXPECT_TRUE(held.held);
  EXPECT_DOUBLE_EQ(*held.margin, 6 * bar);
  EXPECT_DOUBLE_EQ(*held.share, 6.0 / 20.0);
  EXPECT_EQ(held.time, 3.0);
  EXPECT_EQ(held.found, "lowest 190 bar, highest 214 bar");
  EXPECT_EQ(held.promised, "C1.A.pressure from 180 bar to 220 bar");

  f.column("C1.A.pressure", {200 * bar, 170 * bar, 195 * bar, 214 * bar, 200 * bar});
  const Finding broken = f.finding("band");
  EXPECT_FALSE(broken.held);
  EXPECT_DOUBLE_EQ(*broken.margin, -10 * bar);
  EXPECT_EQ(broken.time, 1.0);
}

TEST(Drift, the_change_counts_from_the_settled_value_to_the_furthest_later_one) {
  Fixture f;
  f.times({0, 10, 11, 12, 20});
  f.step("lift", 0, 10);
  f.step("hold", 10, 20);
  f.column("C1.position", {0, 80 * mm, 82 * mm, 81.8 * mm, 81.5 * mm});
  f.require("stays", Drift{f.signal("C1.position"), 0.6 * mm, 1.0}, {"hold"});
  const Finding found = f.finding("stays");  // from 82 mm at 11 s to 81.5 mm at 20 s
  EXPECT_TRUE(found.held);
  EXPECT_NEAR(*found.margin, 0.1 * mm, 1e-12);
  EXPECT_NEAR(*found.share, 1.0 / 6.0, 1e-9);
  EXPECT_EQ(found.time, 20.0);
  EXPECT_EQ(found.found, "fell by 0.500 mm, from 82.0 mm at 11.0 s");
  EXPECT_EQ(found.promised,
            "C1.position changes by no more than 0.6 mm, after 1 s to settle, during \"hold\"");
}

TEST(Drift, without_settling_the_first_moment_of_the_step_is_the_reference) {
  Fixture f;
  f.times({0, 2, 4});
  f.step("hold", 1, 4);
  f.column("C1.position", {0, 10 * mm, 12 * mm});
  f.require("stays", Drift{f.signal("C1.position"), 6 * mm}, {"hold"});
  EXPECT_NEAR(*f.finding("stays").margin, -1 * mm, 1e-12);  // 5 mm at 1 s, 12 mm at 4 s
}

TEST(Drift, steps_shorter_than_the_settling_time_prove_nothing) {
  Fixture f;
  f.times({0, 2});
  f.step("hold", 0, 2);
  f.require("stays", Drift{f.signal("C1.position"), 6 * mm, 5.0});
  const Finding found = f.finding("stays");
  EXPECT_FALSE(found.held);
  EXPECT_EQ(found.margin, std::nullopt);
  EXPECT_EQ(found.found, "not judged: seen for 2.00 s, and it may settle for 5.00 s");
}

TEST(Level, the_widest_moment_decides_and_the_part_furthest_from_the_mean_is_named) {
  Fixture f;
  f.times({0, 1, 2});
  f.step("lift", 0, 2);
  f.column("C1.position", {0, 50 * mm, 100 * mm});
  f.column("C2.position", {0, 49 * mm, 99 * mm});
  f.column("C3.position", {0, 47 * mm, 98.5 * mm});
  f.require("level",
            Level{{f.signal("C1.position"), f.signal("C2.position"), f.signal("C3.position")}, 2 * mm});
  const Finding found = f.finding("level");  // at 1 s 3 mm apart, mean 48.67 mm: C3 1.67, C1 1.33 mm off
  EXPECT_FALSE(found.held);
  EXPECT_NEAR(*found.margin, -1 * mm, 1e-12);
  EXPECT_NEAR(*found.share, -0.5, 1e-9);
  EXPECT_EQ(found.time, 1.0);
  EXPECT_EQ(found.part, "C3");
  EXPECT_EQ(found.promised, "C1.position, C2.position and C3.position no more than 2 mm apart");
}

TEST(Level, a_difference_equal_to_the_limit_holds_in_spite_of_round_off) {
  Fixture f;
  f.times({0, 1});
  f.step("lift", 0, 1);
  f.column("C1.position", {0, 0.3});
  f.column("C2.position", {0, 0.1 + 0.2 - 0.1});  // 0.3 − this is 1.1e-16 off 0.1
  f.require("level", Level{{f.signal("C1.position"), f.signal("C2.position")}, 0.1});
  const Finding found = f.finding("level");
  EXPECT_TRUE(found.held);
  EXPECT_EQ(found.margin, 0.0);
}

}  // namespace
}  // namespace poise
