// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The step that lifts the smallest of straight lines most.
#include "search/linear_model.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

namespace poise::search {
namespace {

double smallest_at(const std::vector<Line>& lines, const std::vector<double>& step) {
  double least = 1e9;
  for (const Line& line : lines) {
    double value = line.base;
    for (std::size_t j = 0; j < step.size(); ++j) value += line.slope[j] * step[j];
    if (!line.floor) least = std::min(least, value);
  }
  return least;
}

// 0.1 + 2·d and 0.5 − 1·d meet at d = 0.4/3.
TEST(best_step, of_two_lines_that_cross_is_at_their_crossing) {
  const std::vector<double> step =
      best_step({{.base = 0.1, .slope = {2.0}}, {.base = 0.5, .slope = {-1.0}}}, {-0.5}, {0.5});
  EXPECT_NEAR(step[0], 0.4 / 3.0, 2e-3);
}

TEST(best_step, ends_at_the_trust_region) {
  const std::vector<double> step =
      best_step({{.base = 0.1, .slope = {2.0}}, {.base = 0.5, .slope = {-1.0}}}, {-0.05}, {0.05});
  EXPECT_NEAR(step[0], 0.05, 1e-6);
}

// 0.2 + d rises; 0.4 − d must not fall below 0.3: d = 0.1.
TEST(best_step, keeps_a_floor) {
  const std::vector<double> step =
      best_step({{.base = 0.2, .slope = {1.0}}, {.base = 0.4, .slope = {-1.0}, .floor = 0.3}}, {-0.5}, {0.5});
  EXPECT_NEAR(step[0], 0.1, 1e-4);
}

// −d1 + s, d1 − 2·d2 + s, d2 + s with s = 0.1: they sum, weighed 2, 2, 4 … to a constant; with the weights
// w of the equilibrium w·slopes = 0 no step lifts the smallest above the weighed mean of the bases.
TEST(best_step, of_lines_that_hold_each_other_lifts_to_the_weighed_mean) {
  const std::vector<Line> lines{{.base = 0.1, .slope = {-1.0, 0.0}},
                                {.base = 0.3, .slope = {1.0, -2.0}},
                                {.base = 0.2, .slope = {0.0, 1.0}}};
  // w1·(−1, 0) + w2·(1, −2) + w3·(0, 1) = 0: w1 = w2, w3 = 2·w2; weights 1/4, 1/4, 1/2.
  const double mean = 0.25 * 0.1 + 0.25 * 0.3 + 0.5 * 0.2;
  const std::vector<double> step = best_step(lines, {-1.0, -1.0}, {1.0, 1.0});
  EXPECT_NEAR(smallest_at(lines, step), mean, 2e-3);
}

TEST(best_step, without_a_line_to_lift_stays) {
  EXPECT_EQ(best_step({}, {-1.0, -1.0}, {1.0, 1.0}), (std::vector<double>{0.0, 0.0}));
  EXPECT_EQ(best_step({{.base = 0.1, .slope = {1.0}, .floor = 0.0}}, {-1.0}, {1.0}),
            (std::vector<double>{0.0}));
}

// Against a grid of all steps.
RC_GTEST_PROP(best_step_of_any_lines, is_as_good_as_the_best_of_a_grid, (std::array<int, 12> numbers)) {
  std::vector<Line> lines;
  for (std::size_t i = 0; i < 4; ++i) {
    const auto number = [&](std::size_t k) { return std::remainder(numbers[3 * i + k], 100) / 50.0; };
    lines.push_back({.base = 0.3 * number(0), .slope = {number(1), number(2)}});
  }
  const std::vector<double> low{-0.2, -0.2}, high{0.2, 0.2};
  double best = -1e9;
  for (int i = -20; i <= 20; ++i) {
    for (int k = -20; k <= 20; ++k) best = std::max(best, smallest_at(lines, {0.01 * i, 0.01 * k}));
  }
  const std::vector<double> step = best_step(lines, low, high);
  for (std::size_t j = 0; j < 2; ++j) {
    RC_ASSERT(step[j] >= low[j] - 1e-9);
    RC_ASSERT(step[j] <= high[j] + 1e-9);
  }
  RC_ASSERT(smallest_at(lines, step) >= best - 5e-3);
}

// least − ln(count)/sharpness ≤ smooth minimum ≤ least.
RC_GTEST_PROP(smooth_minimum_of_numbers, lies_below_the_smallest_by_little,
              (const std::vector<int>& numbers)) {
  RC_PRE(!numbers.empty());
  std::vector<double> shares;
  for (const int number : numbers) shares.push_back(std::remainder(number, 1000) / 1000.0);
  const double least = *std::ranges::min_element(shares), sharpness = 60.0;
  const double smooth = smooth_minimum(shares, sharpness);
  RC_ASSERT(smooth <= least + 1e-12);
  RC_ASSERT(smooth >= least - std::log(static_cast<double>(shares.size())) / sharpness - 1e-12);
}

}  // namespace
}  // namespace poise::search
