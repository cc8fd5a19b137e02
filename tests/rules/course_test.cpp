// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/course.hpp"

#include <gtest/gtest.h>

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

// A rise to 10 within 1 s, 10 for 2 s, a fall to −10 within 2 s, −10 for 1 s, then a pulse of 100 for no
// time.
constexpr std::array time{0.0, 1.0, 3.0, 5.0, 6.0, 6.001, 6.002};
constexpr std::array value{0.0, 10.0, 10.0, -10.0, -10.0, 100.0, 0.0};
const Course course(time, value);

TEST(course_of_a_signal, counts_the_time_beyond_a_magnitude_either_way) {
  // Beyond 5 upwards: half of the rise, the 2 s, a quarter of the fall; downwards: a quarter of the fall, the
  // 1 s; and of the pulse some of its 2 ms.
  EXPECT_NEAR(course.time_beyond(5.0), 0.5 + 2.0 + 0.5 + 0.5 + 1.0, 0.002);
  EXPECT_EQ(course.time_beyond(200.0), 0.0);
}

TEST(course_of_a_signal, holds_what_stands_and_not_the_pulse) {
  // 1 s in all beyond: the two plateaus hold 10 for 3 s, the pulse is shorter.
  EXPECT_NEAR(course.held_beyond(5.0, 1.0), 10.0, 0.02);
  EXPECT_EQ(course.held_beyond(11.0, 0.1), 0.0);
  EXPECT_EQ(course.held_beyond(200.0, 0.0), 0.0);
}

TEST(course_of_a_signal, is_empty_without_a_run) {
  EXPECT_FALSE(Course());
  EXPECT_EQ(Course().time_beyond(0.0), 0.0);
  EXPECT_EQ(Course().held_beyond(0.0, 1.0), 0.0);
}

}  // namespace
}  // namespace poise::rules
