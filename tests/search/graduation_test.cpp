// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Values as people set them, and as a job says them.
#include "search/graduation.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace poise::search {
namespace {

constexpr double psi = 6894.757293168;  // 1 lbf/in2: 0.45359237 kg · 9.80665 m/s2 / (25.4 mm)2

double read(const std::string& text, Quantity quantity) { return units::read(text, quantity).value.value(); }

TEST(settable, a_pressure_above_100_bar_in_half_divisions_of_its_gauge) {
  EXPECT_NEAR(settable(182.4 * si::bar, Quantity::pressure, units::metric(), 0), 180 * si::bar, 1.0);
  EXPECT_NEAR(settable(182.6 * si::bar, Quantity::pressure, units::metric(), 0), 185 * si::bar, 1.0);
  EXPECT_NEAR(settable(182.6 * si::bar, Quantity::pressure, units::metric(), 2), 183 * si::bar, 1.0);
}

TEST(settable, a_pressure_below_100_bar_in_bars) {
  EXPECT_NEAR(settable(62.4 * si::bar, Quantity::pressure, units::metric(), 0), 62 * si::bar, 1.0);
  EXPECT_NEAR(settable(62.4 * si::bar, Quantity::pressure, units::metric(), 1), 62.5 * si::bar, 1.0);
}

TEST(settable, a_pressure_in_psi_where_people_read_psi) {
  EXPECT_NEAR(settable(2476 * psi, Quantity::pressure, units::us(), 0), 2500 * psi, 0.01 * psi);
  EXPECT_NEAR(settable(2476 * psi, Quantity::pressure, units::us(), 1), 2475 * psi, 0.01 * psi);
  EXPECT_NEAR(settable(864 * psi, Quantity::pressure, units::us(), 0), 860 * psi, 0.01 * psi);
}

TEST(settable, a_needle_in_quarters_of_a_turn) {
  EXPECT_DOUBLE_EQ(settable(1.6, Quantity::turns, units::metric(), 0), 1.5);
  EXPECT_DOUBLE_EQ(settable(1.6, Quantity::turns, units::metric(), 1), 1.625);
}

TEST(settable, each_degree_is_finer) {
  for (const Quantity quantity : {Quantity::pressure, Quantity::turns, Quantity::flow, Quantity::length}) {
    for (const units::World& world : {units::metric(), units::us()}) {
      for (const double value : {0.004, 0.7, 3.0, 5e6, 3e7}) {
        for (int degree = 1; degree < degrees; ++degree)
          EXPECT_LT(set_step(value, quantity, world, degree), set_step(value, quantity, world, degree - 1));
      }
    }
  }
}

// A value is off by half a step at most, and what is settable already stays.
RC_GTEST_PROP(settable_value, is_the_nearest_and_stays, (unsigned number, bool us)) {
  const Quantity all[] = {Quantity::pressure, Quantity::turns, Quantity::flow, Quantity::force};
  const Quantity quantity = all[number % 4];
  const units::World& world = us ? units::us() : units::metric();
  const double shown = std::pow(10.0, -1.0 + 4.0 * (number / 4 % 100'000) / 100'000.0);
  const double value = shown / units::difference_in_unit(1.0, quantity, world);
  for (int degree = 0; degree < degrees; ++degree) {
    const double set = settable(value, quantity, world, degree);
    RC_ASSERT(std::abs(set - value) <= 0.5 * set_step(value, quantity, world, degree) * (1.0 + 1e-9));
    if (set > 0.0) {
      const double step = set_step(set, quantity, world, degree), steps = set / step;
      RC_ASSERT(std::abs(steps - std::round(steps)) < 1e-6);
      RC_ASSERT(std::abs(settable(set, quantity, world, degree) - set) <= 1e-9 * set);
    }
  }
}

// What is written reads back as the value.
RC_GTEST_PROP(written_value, reads_back, (unsigned number, bool us)) {
  const Quantity all[] = {Quantity::pressure, Quantity::turns,  Quantity::flow,
                          Quantity::length,   Quantity::volume, Quantity::share};
  const Quantity quantity = all[number % 6];
  const units::World& world = us ? units::us() : units::metric();
  const double shown = std::pow(10.0, -1.0 + 4.0 * (number / 6 % 100'000) / 100'000.0);
  const double value = settable(shown / units::difference_in_unit(1.0, quantity, world), quantity, world, 3);
  RC_ASSERT(std::abs(read(written(value, quantity, world), quantity) - value) <= 1e-9 * value);
}

TEST(written_value, is_short_and_has_its_unit) {
  EXPECT_EQ(written(62.5 * si::bar, Quantity::pressure, units::metric()), "62.5 bar");
  EXPECT_EQ(written(63 * si::mm, Quantity::length, units::metric()), "63 mm");
  EXPECT_EQ(written(1.25, Quantity::turns, units::metric()), "1.25 turns");
  EXPECT_EQ(written(2500 * psi, Quantity::pressure, units::us()), "2500 psi");
  EXPECT_EQ(written(3.25 * 25.4 * si::mm, Quantity::length, units::us()), "3.25 in");
  EXPECT_EQ(written(4.0, Quantity::none, units::metric()), "4");
}

}  // namespace
}  // namespace poise::search
