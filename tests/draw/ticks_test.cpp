// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/ticks.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <set>

#include "draw/axis.hpp"

namespace poise::draw {
namespace {

double any_number(int figures, int powers) {
  const int mantissa = *rc::gen::inRange(-figures, figures);
  return mantissa * std::pow(10.0, *rc::gen::inRange(-powers, powers));
}

// Two numbers of like size, the lower first, clearly apart.
std::pair<double, double> any_range() {
  const double low = any_number(1000, 4);
  const double span = (*rc::gen::inRange(1, 1000)) * std::max(1e-4, 1e-2 * std::abs(low));
  return {low, low + span};
}

RC_GTEST_PROP(ticks, are_multiples_of_one_two_or_five_times_a_power_of_ten, ()) {
  const auto [low, high] = any_range();
  const Ticks ticks = nice_ticks(low, high, *rc::gen::inRange(2, 20));
  const double figure = ticks.step / std::pow(10.0, std::floor(std::log10(ticks.step) + 1e-9));
  const auto near = [&](double f) { return std::abs(figure - f) < 1e-6; };
  RC_ASSERT(near(1.0) || near(2.0) || near(5.0));
  for (const double at : ticks.at) {
    RC_ASSERT(std::abs(at / ticks.step - std::round(at / ticks.step)) < 1e-6);
  }
}

RC_GTEST_PROP(ticks, are_inside_the_axis_evenly_apart_and_no_more_than_fit, ()) {
  const auto [low, high] = any_range();
  const int most = *rc::gen::inRange(2, 20);
  const Ticks ticks = nice_ticks(low, high, most);
  RC_ASSERT(std::ssize(ticks.at) <= most);
  for (std::size_t i = 0; i < ticks.at.size(); ++i) {
    RC_ASSERT(ticks.at[i] >= low - 1e-6 * ticks.step);
    RC_ASSERT(ticks.at[i] <= high + 1e-6 * ticks.step);
    if (i > 0) RC_ASSERT(std::abs(ticks.at[i] - ticks.at[i - 1] - ticks.step) < 1e-6 * ticks.step);
  }
}

// The next finer step, at least 2.5 times finer or half, would give more than fit: no axis is left empty.
RC_GTEST_PROP(ticks, use_the_room_there_is, ()) {
  const auto [low, high] = any_range();
  const int most = *rc::gen::inRange(6, 20);
  RC_ASSERT(std::ssize(nice_ticks(low, high, most).at) >= most / 3);
}

RC_GTEST_PROP(ticks, have_labels_that_differ, ()) {
  const auto [low, high] = any_range();
  const Ticks ticks = nice_ticks(low, high, *rc::gen::inRange(2, 12));
  std::set<std::string> labels;
  for (const double at : ticks.at) labels.insert(tick_label(at, ticks));
  RC_ASSERT(labels.size() == ticks.at.size());
}

TEST(ticks, of_zero_to_250_bar_are_round) {
  const Ticks ticks = nice_ticks(0.0, 250.0, 6);
  ASSERT_EQ(ticks.at.size(), 6U);
  EXPECT_EQ(tick_label(ticks.at[3], ticks), "150");
  EXPECT_EQ(tick_label(0.30000000000000004, nice_ticks(0.0, 0.5, 6)), "0.3");
}

RC_GTEST_PROP(value_axis, ends_on_ticks_around_what_it_holds, ()) {
  const auto [low, high] = any_range();
  const ValueAxis axis = value_axis(low, high, 10.0, 60.0, *rc::gen::inRange(2, 12));
  const double slack = 1e-6 * axis.ticks.step;
  RC_ASSERT(axis.low <= low + slack);
  RC_ASSERT(axis.high >= high - slack);
  RC_ASSERT(std::abs(axis.ticks.at.front() - axis.low) < slack);
  RC_ASSERT(std::abs(axis.ticks.at.back() - axis.high) < slack);
  RC_ASSERT(std::abs(axis.at(axis.low) - 10.0) < 1e-9);
  RC_ASSERT(std::abs(axis.at(axis.high) - 60.0) < 1e-9);
}

std::vector<StepSpan> steps_of(const std::vector<double>& lasts) {
  std::vector<StepSpan> steps;
  double at = 0.0;
  for (const double each : lasts) {
    steps.push_back({"step", at, at + each, true});
    at += each;
  }
  return steps;
}

// A second lasts 10 mm, but the step of 10 ms gets its 8 mm: what is left, 102 − 8 mm, is shared by 9.4 s.
TEST(time_axis, draws_a_short_step_wider_and_the_others_to_one_scale) {
  const TimeAxis axis(steps_of({4.0, 0.01, 5.4}), 0.0, 102.0, std::vector{8.0, 8.0, 8.0});
  ASSERT_FALSE(axis.to_scale());
  EXPECT_NEAR(axis.scale(), 10.0, 1e-9);
  EXPECT_NEAR(axis.at(4.0), 40.0, 1e-9);
  EXPECT_NEAR(axis.at(4.005), 44.0, 1e-9);
  EXPECT_NEAR(axis.at(4.01), 48.0, 1e-9);
  EXPECT_NEAR(axis.pieces()[1].wider, 80.0, 1e-6);
  EXPECT_EQ(axis.pieces()[0].wider, 1.0);
}

TEST(time_axis, is_to_scale_where_every_name_fits) {
  const TimeAxis axis(steps_of({4.0, 1.0, 5.0}), 10.0, 110.0, std::vector{8.0, 8.0, 8.0});
  EXPECT_TRUE(axis.to_scale());
  EXPECT_NEAR(axis.at(4.5), 55.0, 1e-9);
}

RC_GTEST_PROP(time_axis, keeps_the_order_of_moments_and_fills_its_room, ()) {
  const auto count = *rc::gen::inRange<std::size_t>(1, 15);
  std::vector<double> lasts;
  for (std::size_t i = 0; i < count; ++i) lasts.push_back(*rc::gen::inRange(1, 100000) * 1e-3);
  const auto steps = steps_of(lasts);
  const TimeAxis axis(steps, 20.0, 250.0, std::vector<double>(count, 25.0));
  RC_ASSERT(std::abs(axis.at(0.0) - 20.0) < 1e-6);
  RC_ASSERT(std::abs(axis.at(steps.back().end) - 250.0) < 1e-6);
  const double end = steps.back().end;
  double before = axis.at(0.0);
  for (int i = 1; i <= 200; ++i) {
    const double now = axis.at(end * i / 200);
    RC_ASSERT(now >= before);
    before = now;
  }
}

}  // namespace
}  // namespace poise::draw
