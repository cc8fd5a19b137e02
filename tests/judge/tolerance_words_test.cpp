// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// How far off a value may be, in words.
#include <gtest/gtest.h>

#include "judge/wording.hpp"

namespace poise {
namespace {

using Of = Tolerance::Of;

std::string metric(const Tolerance& tolerance, Quantity quantity = Quantity::pressure) {
  return wording::of(tolerance, quantity, units::metric());
}

TEST(wording_of_a_tolerance, tells_the_sides_apart_where_they_differ) {
  EXPECT_EQ(metric(0.03), "± 3 %");
  EXPECT_EQ(metric({0.05, 0.03}), "−5 % … +3 %");
  EXPECT_EQ(metric({1.0, 0.0}), "−100 % … 0");
  EXPECT_EQ(metric({0.0, 0.08}), "0 … +8 %");
}

TEST(wording_of_a_tolerance, has_the_unit_of_a_difference) {
  EXPECT_EQ(metric({5e5, 5e5, Of::absolute}), "± 5 bar");
  EXPECT_EQ(metric({10.0, 20.0, Of::absolute}, Quantity::temperature), "−10 degC … +20 degC");
  EXPECT_EQ(wording::of({10.0, 10.0, Of::absolute}, Quantity::temperature, units::us()), "± 18 degF");
}

// 2 % of an efficiency is another thing than 2 points of it.
TEST(wording_of_a_tolerance, tells_percentage_points_from_a_share_of_a_share) {
  EXPECT_EQ(metric({0.02, 0.02, Of::absolute}, Quantity::share), "± 2 points");
  EXPECT_EQ(metric(0.02, Quantity::share), "± 2 %");
}

TEST(wording_of_a_tolerance, speaks_of_what_is_lost_where_it_is_of_that) {
  EXPECT_EQ(metric({1.0, 0.0, Of::rest}, Quantity::share), "its loss up to 100 % more");
  EXPECT_EQ(metric({0.5, 0.2, Of::rest}, Quantity::share), "its loss −20 % … +50 %");
  EXPECT_EQ(metric({0.0, 2.0 / 3.0, Of::rest}, Quantity::share), "up to 66.7 % of the way to 100 %");
}

}  // namespace
}  // namespace poise
