// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/course.hpp"

#include <array>

namespace poise::rules {
namespace {

TEST(course, a_lasting_value_leaves_out_a_short_blow) {
  // Given 100 from 0 s to 2 s, with a blow to 300 between 1.00 s and 1.02 s.
  constexpr std::array time{0.0, 1.0, 1.01, 1.02, 2.0};
  constexpr std::array value{100.0, 100.0, 300.0, 100.0, 100.0};
  const Course course(time, value);
  // When it must last half a second it is the 100; for 1 ms the blow counts, up to where it is 1 ms wide.
  EXPECT_NEAR(course.lasting(0.5), 100.0, 0.01 * 300.0);
  EXPECT_NEAR(course.lasting(0.001), 300.0 - 200.0 * 0.0005 / 0.01, 0.01 * 300.0);
}

TEST(course, nothing_lasts_longer_than_the_run) {
  constexpr std::array time{0.0, 1.0};
  constexpr std::array value{50.0, 50.0};
  EXPECT_NEAR(Course(time, value).lasting(2.0), 0.0, 0.01 * 50.0);
  EXPECT_EQ(Course().lasting(1.0), 0.0);
}

}  // namespace
}  // namespace poise::rules
