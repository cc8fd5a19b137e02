// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/monotone_curve.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace poise {
namespace {

const Points knee{{0.0, 6.0}, {60.0, 5.6}, {80.0, 1.1}, {400.0, 1.0}, {700.0, 0.7}};

TEST(monotone_curve, runs_through_its_points) {
  const MonotoneCurve curve(knee);
  for (const CurvePoint& p : knee) EXPECT_NEAR(curve.look(p.x).value, p.y, 1e-14);
  EXPECT_LE(curve.fit("delivery_curve").worst(), 1e-14);
}

TEST(monotone_curve, never_rises_between_points_that_fall) {
  const MonotoneCurve curve(knee);
  for (double x = 0.0; x < 700.0; x += 0.1)
    EXPECT_LE(curve.look(x + 0.1).value, curve.look(x).value + 1e-12) << x;
}

TEST(monotone_curve, knows_its_own_slope_and_has_no_corner) {
  const MonotoneCurve curve(knee);
  const double h = 1e-5;
  for (double x : {-10.0, 1.0, 30.0, 60.0, 70.0, 80.0, 200.0, 400.0, 650.0, 900.0}) {
    const double before = (curve.look(x).value - curve.look(x - h).value) / h;
    const double after = (curve.look(x + h).value - curve.look(x).value) / h;
    EXPECT_NEAR(before, curve.look(x).slope, 1e-6) << x;
    EXPECT_NEAR(after, curve.look(x).slope, 1e-6) << x;
  }
}

TEST(monotone_curve, of_points_in_a_row_is_the_straight_line) {
  const MonotoneCurve curve(Points{{1.0, 3.0}, {2.0, 5.0}, {4.0, 9.0}});
  for (double x : {0.0, 1.5, 3.9, 7.0}) EXPECT_NEAR(curve.look(x).value, 1.0 + 2.0 * x, 1e-12);
}

TEST(monotone_curve, stays_level_beyond_its_ends_if_told_so) {
  const MonotoneCurve curve(knee, MonotoneCurve::Beyond::level);
  EXPECT_EQ(curve.look(-5.0).value, 6.0);
  EXPECT_EQ(curve.look(1000.0).value, 0.7);
  EXPECT_EQ(curve.look(1000.0).slope, 0.0);
}

}  // namespace
}  // namespace poise
