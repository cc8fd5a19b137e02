// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/table.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace poise::papers {
namespace {

void expect(const Cell& cell, std::string_view text, double number, std::string_view unit) {
  EXPECT_EQ(cell.text, text);
  ASSERT_TRUE(cell.number);
  EXPECT_NEAR(*cell.number, number, 1e-12 * std::abs(number));
  EXPECT_EQ(cell.unit, unit);
}

TEST(Table, a_result_has_three_figures_and_keeps_all_of_its_number) {
  expect(measured(2.0345e7, Quantity::pressure, units::metric()), "203 bar", 203.45, "bar");
  expect(measured(12e-6, Quantity::volume, units::metric()), "12.0 cm³", 12.0, "cm3");
  expect(measured(0.03, Quantity::share, units::metric()), "3.00 %", 3.0, "%");
  expect(measured(313.15, Quantity::temperature, units::metric()), "40.0 °C", 40.0, "degC");
}

// 250 bar are 3625.94 psi; nobody rates a hose to a hundredth of a psi.
TEST(Table, what_was_stated_in_another_unit_is_told_in_three_figures) {
  expect(stated(250 * si::bar, Quantity::pressure, units::us()), "3630 psi", 250e5 / 6894.757293168361,
         "psi");
  EXPECT_EQ(stated(10'000 * 6894.757293168361, Quantity::pressure, units::us()).text, "10000 psi");
}

TEST(Table, what_is_stated_reads_as_it_was_stated) {
  // 1 psi is 6894.757293168361 Pa: pound and inch by definition, standard gravity.
  expect(stated(1015 * 6894.757293168361, Quantity::pressure, units::us()), "1015 psi", 1015.0, "psi");
  expect(stated(2.0, Quantity::turns, units::metric()), "2 turns", 2.0, "turns");
  expect(stated(4.5e-4, Quantity::area, units::metric()), "4.5 cm²", 4.5, "cm2");
}

TEST(Table, large_volumes_are_told_in_litres_and_gallons_and_so_are_their_numbers) {
  expect(measured(12e-3, Quantity::volume, units::metric()), "12.0 L", 12.0, "L");
  expect(stated(12.5e-3, Quantity::volume, units::metric()), "12.5 L", 12.5, "L");
  expect(measured(2 * 3.785411784e-3, Quantity::volume, units::us()), "2.00 gal", 2.0, "gal");  // 231 in3
}

TEST(Table, a_bare_number_has_no_unit) {
  expect(stated(2.5, Quantity::none, units::metric()), "2.5", 2.5, "");
}

TEST(Table, what_is_no_number_says_so_and_is_none) {
  for (const double none :
       {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
    EXPECT_EQ(measured(none, Quantity::pressure, units::metric()).text, "no value");
    EXPECT_FALSE(measured(none, Quantity::pressure, units::metric()).number);
    EXPECT_EQ(stated(none, Quantity::pressure, units::metric()).text, "no value");
    EXPECT_FALSE(stated(none, Quantity::pressure, units::metric()).number);
  }
}

}  // namespace
}  // namespace poise::papers
