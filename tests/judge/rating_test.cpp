// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/rating.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "judge/scene.hpp"

namespace poise {
namespace {

using scene::Fixture;
using testing::ElementsAre;
constexpr double bar = si::bar;
constexpr double psi = 6894.757293168361;
const std::string name = "no part above its rated pressure";

Fixture pressed_to(double pressure) {
  Fixture f;
  f.times({0, 1, 2});
  f.step("press", 0, 2);
  f.column("C1.A.pressure", {0, pressure, 0});
  return f;
}

TEST(Ratings, the_part_with_the_least_share_left_decides) {
  Fixture f = pressed_to(187 * bar);
  f.column("C2.B.pressure", {0, 0, 200 * bar});
  f.rate("C1", 250 * bar);  // 25.2 % left
  f.rate("C2", 400 * bar);  // 50 % left
  const Finding found = f.finding(name);
  EXPECT_TRUE(found.held);
  EXPECT_DOUBLE_EQ(*found.margin, 63 * bar);
  EXPECT_DOUBLE_EQ(*found.share, 63.0 / 250.0);
  EXPECT_EQ(found.time, 1.0);
  EXPECT_EQ(found.step, "press");
  EXPECT_EQ(found.part, "C1");
  EXPECT_EQ(found.found, "C1.A 187 bar of 250 bar");
}

TEST(Ratings, every_part_above_its_rating_is_named) {
  Fixture f = pressed_to(300 * bar);
  f.column("C2.B.pressure", {0, 0, 270 * bar});
  f.rate("C1", 250 * bar);
  f.rate("C2", 250 * bar);
  f.rate("C3", 250 * bar);
  const Finding found = f.finding(name);
  EXPECT_FALSE(found.held);
  EXPECT_DOUBLE_EQ(*found.margin, -50 * bar);
  EXPECT_EQ(found.found, "C1.A 300 bar of 250 bar; also above theirs: C2");
}

// The table of the trade: 70/210/350/700 bar and 1,000/3,000/5,000/10,000 psi are the same classes (common
// practice).
TEST(Ratings, between_the_two_members_of_a_class_there_is_no_alarm_and_no_margin) {
  const struct {
    double metric, us;
  } classes[] = {
      {70 * bar, 1000 * psi}, {210 * bar, 3000 * psi}, {350 * bar, 5000 * psi}, {700 * bar, 10000 * psi}};
  for (const auto& c : classes) {
    for (const double rated : {c.metric, c.us}) {
      const double between = 0.5 * (c.metric + c.us);
      Fixture f = pressed_to(between);
      f.rate("C1", rated);
      EXPECT_TRUE(f.finding(name).held) << rated;
      EXPECT_EQ(f.finding(name).margin, 0.0) << rated;
      const Rating rating = rating_from(rated);
      EXPECT_DOUBLE_EQ(margin(rating, c.us - 5 * bar), 5 * bar) << "margin ends at the smaller member";
      EXPECT_DOUBLE_EQ(margin(rating, c.metric + 5 * bar), -5 * bar) << "alarm starts at the larger member";
      EXPECT_EQ(margin(rating, c.metric), 0.0);
    }
  }
}

TEST(Ratings, outside_the_classes_a_rating_is_what_it_says) {
  const Rating rating = rating_from(695 * bar);
  EXPECT_DOUBLE_EQ(margin(rating, 690 * bar), 5 * bar);
  EXPECT_DOUBLE_EQ(margin(rating, 700 * bar), -5 * bar);
  EXPECT_DOUBLE_EQ(rating_from(700.6 * bar).limit, 10000 * psi);  // within 0.1 % of 700 bar
  EXPECT_DOUBLE_EQ(rating_from(700.8 * bar).limit, 700.8 * bar);
}

TEST(Ratings, a_gauge_is_rated_by_its_scale) {
  Fixture f = pressed_to(0);
  f.gauge("G1", 250 * bar);
  f.column("G1.pressure", {0, 260 * bar, 0});
  const Finding found = f.finding(name);
  EXPECT_FALSE(found.held);
  EXPECT_DOUBLE_EQ(*found.margin, -10 * bar);
  EXPECT_EQ(found.found, "G1.M 260 bar of 250 bar");
}

TEST(Ratings, parts_without_a_rating_are_named_in_one_caution) {
  Fixture f = pressed_to(100 * bar);
  f.require("x", Never{f.signal("C1.A.pressure"), true, 250 * bar});
  f.rate("C1", 250 * bar);
  EXPECT_THAT(f.verdict().cautions, ElementsAre("No rating given, so not checked: R1, K1, C2, C3."));
}

TEST(Ratings, without_any_rating_there_is_no_finding_but_a_caution) {
  Fixture f = pressed_to(100 * bar);
  f.require("x", Never{f.signal("C1.A.pressure"), true, 250 * bar});
  const Verdict verdict = f.verdict();
  for (const Finding& finding : verdict.findings) EXPECT_NE(finding.name, name);
  EXPECT_THAT(verdict.cautions,
              ElementsAre("No part's rating is given, so none is checked: R1, K1, C1, C2, C3."));
}

TEST(Ratings, only_ports_that_exist_are_looked_at) {
  Fixture f = pressed_to(0);
  f.rate("K1", 350 * bar);  // comes back by its spring: no port B
  std::vector<std::string> names;
  for (const Signal& signal : rated_pressures(f.job.plan)) names.push_back(signal.name);
  EXPECT_THAT(names, ElementsAre("K1.A.pressure"));
}

}  // namespace
}  // namespace poise
