// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/course.hpp"

#include <array>

namespace poise::rules {
namespace {

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
