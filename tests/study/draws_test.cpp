// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/draws.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

namespace poise::study {
namespace {

// A digital net in base 2: of the first 2^m points each coordinate has exactly one in every 2^m-th part of
// its range, however its digits were exchanged (A. B. Owen, 1995).
TEST(draws, each_coordinate_alone_is_even) {
  constexpr int dimensions = 40, points = 64;
  for (const std::uint64_t seed : {1u, 2u, 77u}) {
    const Draws draws(dimensions, seed);
    std::vector<std::set<int>> parts(dimensions);
    for (long number = 1; number <= points; ++number) {
      const std::vector<double> point = draws.at(number);
      for (std::size_t d = 0; d < dimensions; ++d) parts[d].insert(static_cast<int>(point[d] * points));
    }
    for (const std::set<int>& part : parts) EXPECT_EQ(part.size(), points);
  }
}

// Of the first two coordinates of Sobol's sequence 16 points lie one in each of 4 × 4 squares (a
// (0,m,2)-net).
TEST(draws, two_coordinates_together_fill_the_square_evenly) {
  const Draws draws(2, 5);
  std::set<int> squares;
  for (long number = 1; number <= 16; ++number) {
    const std::vector<double> point = draws.at(number);
    squares.insert(static_cast<int>(point[0] * 4) * 4 + static_cast<int>(point[1] * 4));
  }
  EXPECT_EQ(squares.size(), 16u);
}

TEST(draws, a_point_is_the_same_alone_and_in_any_order) {
  const Draws draws(61, 1), again(61, 1);
  const std::vector<double> late = draws.at(8231);
  draws.at(3);
  EXPECT_EQ(late, again.at(8231));
  EXPECT_NE(late, Draws(61, 2).at(8231));
  EXPECT_NE(late, again.at(8232));
}

// The fourth root of the number of points is lost by chance alone: an even sequence comes much nearer to the
// mean of a sum than 1/√N of its deviation.
TEST(draws, their_mean_is_nearer_than_chance_brings_it) {
  constexpr long points = 4096;
  constexpr int dimensions = 61;
  const Draws draws(dimensions, 3);
  double mean = 0.0;
  for (long number = 1; number <= points; ++number) {
    for (const double x : draws.at(number)) mean += (x - 0.5) / points;
  }
  const double by_chance = std::sqrt(dimensions / 12.0) / std::sqrt(static_cast<double>(points));
  EXPECT_LT(std::abs(mean), by_chance / 10.0);
}

// More coordinates than the directions are known for are drawn by chance, and still lie within 0 … 1.
TEST(draws, coordinates_beyond_the_table_are_drawn_by_chance) {
  const std::vector<double> point = Draws(4000, 1).at(12);
  ASSERT_EQ(point.size(), 4000u);
  std::set<double> values(point.begin() + 3667, point.end());
  EXPECT_EQ(values.size(), 333u);
  EXPECT_GE(*values.begin(), 0.0);
  EXPECT_LT(*values.rbegin(), 1.0);
}

}  // namespace
}  // namespace poise::study
