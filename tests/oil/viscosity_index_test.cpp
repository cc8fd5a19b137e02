// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "oil/viscosity_index.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "oil/oil.hpp"
#include "oil/viscosity_grade.hpp"
#include "quantity/quantity.hpp"

namespace poise {
namespace {

// By definition the oils of comparison have the indices 0 and 100.
TEST(viscosity_index, the_oils_of_comparison_have_0_and_100) {
  for (double y : {2e-6, 3.33e-6, 7.05e-6, 19.99e-6, 20.1e-6, 29.9e-6, 30.2e-6, 69.9e-6, 71e-6, 200e-6}) {
    const auto [low, high] = basic_values_at(y);
    EXPECT_NEAR(viscosity_index(low, y), 0.0, 1e-9) << y;
    EXPECT_NEAR(viscosity_index(high, y), 100.0, 1e-9) << y;
  }
}

// A thicker oil at 100 °C has thicker oils of comparison: the table as typed in has no slip that turns it
// round, and steps by less than a tenth from line to line.
TEST(viscosity_index, basic_values_grow_with_the_viscosity_at_100_degrees) {
  BasicValues before = basic_values_at(0.5e-6);
  for (double y = 0.55; y < 100.0; y += y < 30.0 ? 0.05 : 0.25) {
    const BasicValues here = basic_values_at(y * 1e-6);
    // The formulas above 70 mm2/s begin 0.03 % below the table's last line.
    const double seam = y > 69.9 && y < 70.4 ? -3e-4 : 0.0;
    EXPECT_GT(here.low / before.low - 1.0, seam) << y;
    EXPECT_GT(here.high / before.high - 1.0, seam) << y;
    EXPECT_LT(here.high, here.low) << y;
    if (y > 2.0) {
      EXPECT_LT(here.low / before.low, 1.1) << y;
    }
    before = here;
  }
}

// What is below 2 mm2/s has no jump to the table and bends at the seam as it does before it.
TEST(viscosity_index, the_continuation_below_the_table_meets_it) {
  const BasicValues below = basic_values_at(1.9999999e-6), at = basic_values_at(2e-6);
  EXPECT_NEAR(below.low, at.low, 1e-6 * at.low);
  EXPECT_NEAR(below.high, at.high, 1e-6 * at.high);
  const auto bend = [](double y, double BasicValues::*of) {
    return basic_values_at(y - 1e-7).*of - 2 * (basic_values_at(y).*of) + basic_values_at(y + 1e-7).*of;
  };
  for (auto of : {&BasicValues::low, &BasicValues::high})
    EXPECT_NEAR(bend(2e-6, of), bend(1.9e-6, of), 0.1 * bend(1.9e-6, of));
}

// ISO 2909 read backwards, on both sides of index 100 and of the end of the table.
TEST(viscosity_index, the_viscosity_at_100_degrees_has_the_index_asked_for) {
  for (double index : {0.0, 55.0, 95.0, 100.0, 101.0, 150.0, 250.0, 400.0})
    for (double viscosity_40 : {7e-6, 10e-6, 32e-6, 46e-6, 320e-6, 1500e-6, 3000e-6}) {
      const auto at_100 = viscosity_100_of(viscosity_40, index);
      ASSERT_TRUE(at_100) << viscosity_40 << ", " << index;
      EXPECT_LT(*at_100, viscosity_40);
      EXPECT_NEAR(viscosity_index(viscosity_40, *at_100), index, 1e-6) << viscosity_40;
    }
}

// The practice's procedure B ends at 2 mm2/s; the thinnest grades have an index up to 100 only.
TEST(viscosity_index, an_index_above_100_needs_two_square_millimetres_per_second) {
  EXPECT_FALSE(viscosity_100_of(4.6e-6, 150));
  EXPECT_TRUE(viscosity_100_of(4.6e-6, 100));
  EXPECT_FALSE(viscosity_100_of(0.0, 100));
  EXPECT_FALSE(viscosity_100_of(std::nan(""), 100));
}

// Every grade with an index of 100 is thinner at 100 °C, and each thicker grade thicker than the one before.
TEST(viscosity_index, every_grade_has_a_viscosity_at_100_degrees) {
  double before = 0.0;
  for (const ViscosityGrade& grade : viscosity_grades) {
    const auto at_100 = viscosity_100_of(grade.midpoint, 100);
    ASSERT_TRUE(at_100) << grade.word;
    EXPECT_GT(*at_100, before) << grade.word;
    EXPECT_LT(*at_100, 0.5 * grade.midpoint) << grade.word;
    before = *at_100;
  }
}

// 6.7 + 0.1·(46 − 45.33)/(46.44 − 45.33) by the table's lines at 6.7 and 6.8 mm2/s.
TEST(viscosity_index, the_usual_oil_has_an_index_of_100) {
  EXPECT_NEAR(*viscosity_100_of(46e-6, 100), (6.7 + 0.1 * 0.67 / 1.11) * 1e-6, 1e-15);
  EXPECT_NEAR(viscosity_index(OilData{}.viscosity_40, OilData{}.viscosity_100), 100.0, 1e-4);
}

}  // namespace
}  // namespace poise
