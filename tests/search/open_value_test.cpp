// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Where a value stands in its range, and points spread over ranges.
#include "search/open_value.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "search/explore.hpp"

namespace poise::search {
namespace {

OpenValue between(double low, double high) { return {.low = low, .high = high}; }

TEST(open_value, a_narrow_range_is_even) {
  const OpenValue value = between(100.0, 200.0);
  EXPECT_DOUBLE_EQ(value.at_share(0.25), 125.0);
  EXPECT_DOUBLE_EQ(value.share_of(150.0), 0.5);
}

// Half way of a range of more than one to three is its geometric mean.
TEST(open_value, a_wide_range_goes_by_ratio) {
  const OpenValue value = between(1.0, 100.0);
  EXPECT_DOUBLE_EQ(value.at_share(0.5), 10.0);
  EXPECT_DOUBLE_EQ(value.share_of(10.0), 0.5);
}

TEST(open_value, what_lies_outside_stands_at_the_end) {
  const OpenValue value = between(1.0, 100.0);
  EXPECT_EQ(value.share_of(0.01), 0.0);
  EXPECT_EQ(value.share_of(1e9), 1.0);
  EXPECT_EQ(value.at_share(-0.1), 1.0);
  EXPECT_EQ(value.at_share(1.1), 100.0);
}

TEST(open_value, a_range_of_one_value_is_that_value) {
  const OpenValue value = between(5.0, 5.0);
  EXPECT_EQ(value.share_of(5.0), 0.0);
  EXPECT_EQ(value.at_share(0.0), 5.0);
  EXPECT_EQ(value.at_share(1.0), 5.0);
}

RC_GTEST_PROP(open_value_range, share_and_value_are_inverse, (unsigned a, unsigned b, unsigned c)) {
  const double low = (a % 4 == 0) ? 0.0 : 1e-6 * (1 + a % 1'000'000);
  const double high = low + 1e-6 * (1 + b % 10'000'000);
  const OpenValue value = between(low, high);
  const double share = (c % 1001) / 1000.0;
  RC_ASSERT(std::abs(value.share_of(value.at_share(share)) - share) < 1e-9);
  RC_ASSERT(value.at_share(share) >= low * (1.0 - 1e-12));
  RC_ASSERT(value.at_share(share) <= high * (1.0 + 1e-12));
}

OpenValue with_guess(double low, double high, double guess) {
  return {.low = low, .high = high, .guess = guess};
}

TEST(spread_out_points, begin_where_a_practitioner_would) {
  const std::vector<Point> points = spread_out({with_guess(0.0, 2.0, 0.5), with_guess(1.0, 100.0, 30.0)}, 1);
  EXPECT_DOUBLE_EQ(points[0][0], 0.5);
  EXPECT_NEAR(points[0][1], 30.0, 1e-9);
}

// Every other point is anywhere in the ranges: each quarter of each range holds as many of them as the
// others. Those between keep near the guess.
TEST(spread_out_points, are_even_over_all_ranges_by_half_and_near_the_guess_by_half) {
  const std::vector<OpenValue> values{with_guess(0.0, 1.0, 0.5), with_guess(1.0, 1000.0, 30.0),
                                      with_guess(5.0, 6.0, 5.4), with_guess(2.0, 3.0, 2.5)};
  constexpr std::size_t count = 64;
  const std::vector<Point> points = spread_out(values, count);
  ASSERT_EQ(points.size(), count);
  for (std::size_t j = 0; j < values.size(); ++j) {
    std::vector<int> quarters(4, 0);
    for (std::size_t i = 0; i < count; ++i) {
      const double share = values[j].share_of(points[i][j]);
      if (i % 2 == 1)
        ++quarters[static_cast<std::size_t>(4.0 * share)];
      else
        EXPECT_NEAR(share, values[j].share_of(values[j].guess), 0.2 + 1e-9);
    }
    for (const int quarter : quarters) EXPECT_NEAR(quarter, 8, 1) << "value " << j;
  }
}

TEST(spread_out_points, take_words_whole_and_miss_none) {
  const OpenValue word{.is = OpenValue::Is::word, .low = 0.0, .high = 4.0, .choices = {0, 1, 2, 3, 4}};
  std::vector<int> seen(5, 0);
  for (const Point& point : spread_out({word}, 32)) {
    ASSERT_EQ(point[0], std::floor(point[0]));
    ++seen[static_cast<std::size_t>(point[0])];
  }
  for (const int times : seen) EXPECT_GE(times, 2);
}

}  // namespace
}  // namespace poise::search
