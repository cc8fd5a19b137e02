// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Outside check values of unit conversion: each figure's source stands beside it. A value is compared at 0.1
// % with what the inputs give at full precision (`recomputed`), and with the printed figure (`printed`)
// within its own rounding.
//
//   U-01 … U-06, U-08 … U-13   here (there is no U-07)
//   V-11, V-12                 here: what they define is a unit of viscosity
//   SZ-02                      here: inches in millimetres
//   SZ-01                      area ratio of cylinders: tests/parts, no matter of units
//   TB-02 … TB-07              lists of preferred sizes, speeds and ratings: nothing to convert
#include <gtest/gtest.h>

#include <cmath>
#include <string_view>

#include "units/units.hpp"

namespace poise::units {
namespace {

double si_of(std::string_view text, Quantity quantity) {
  const Reading reading = read(text, quantity);
  EXPECT_TRUE(reading.value) << text << ": " << reading.complaint;
  return reading.value.value_or(0.0);
}

/// An SI value in a unit that people write.
double in(std::string_view unit, double value, Quantity quantity) {
  World world = metric();
  EXPECT_TRUE(set_unit(world, quantity, unit)) << unit;
  return in_unit(value, quantity, world);
}

double converted(std::string_view text, std::string_view unit, Quantity quantity) {
  return in(unit, si_of(text, quantity), quantity);
}

/// `percent`: how far the printed figure may lie off by its rounding.
void expect_value(double found, double recomputed, double printed, double percent) {
  EXPECT_NEAR(found, recomputed, 1e-3 * std::abs(recomputed));
  EXPECT_NEAR(found, printed, percent / 100 * std::abs(printed));
}

// NIST Special Publication 811, Appendix B.
TEST(check_values, U_01_pound_force_per_square_inch_in_kilopascal) {
  expect_value(converted("1 psi", "kPa", Quantity::pressure), 6.894757293, 6.894757, 0.001);
}

// NIST Special Publication 811, Appendix B.
TEST(check_values, U_02_us_gallon_in_cubic_metres) {
  expect_value(converted("231 in3", "m3", Quantity::volume), 0.003785411784, 0.003785412, 0.001);
  expect_value(converted("1 gal", "m3", Quantity::volume), 0.003785411784, 0.003785412, 0.001);
}

// NIST Special Publication 811, Appendix B.
TEST(check_values, U_03_cubic_inch_in_cubic_metres) {
  expect_value(converted("1 in3", "m3", Quantity::volume), 1.6387064e-05, 1.638706e-05, 0.001);
}

// NIST Special Publication 811, Appendix B: 550 ft·lbf/s.
TEST(check_values, U_04_horsepower_in_watt) {
  const double power =
      si_of("550 lbf", Quantity::force) * si_of("1 ft", Quantity::length) / si_of("1 s", Quantity::time);
  expect_value(power, 745.6998716, 745.6999, 0.001);
  expect_value(si_of("1 hp", Quantity::power), 745.6998716, 745.6999, 0.001);
}

// Fluid Power Technology, West 1995, conversion table; handbook extract citing NIST.
TEST(check_values, U_05_us_gallon_per_minute_in_litres_per_second) {
  expect_value(converted("1 gpm", "L/s", Quantity::flow), 0.0630901964, 0.06309, 0.01);
}

// NIST Special Publication 811, Appendix B.
TEST(check_values, U_06_pound_force_in_newton) {
  expect_value(converted("1 lbf", "N", Quantity::force), 4.448221615, 4.448222, 0.001);
}

// A. Esposito, Fluid Power with Applications, 6th ed. 2005, ch. 3: P[hp] = p[psi]·Q[gpm]/1714.
TEST(check_values, U_08_psi_times_gpm_in_horsepower) {
  const double power = si_of("1714 psi", Quantity::pressure) * si_of("1 gpm", Quantity::flow);
  expect_value(in("hp", power, Quantity::power), 0.9998333333, 1.0, 0.05);
}

// U.S. Army FM 5-499 Hydraulics (1997), Table A-1.
TEST(check_values, U_09_psi_in_kilogram_force_per_square_metre) {
  expect_value(converted("1 psi", "kgf/m2", Quantity::pressure), 703.0695796, 703.1, 0.01);
}

// U.S. Army FM 5-499 Hydraulics (1997), Table A-1.
TEST(check_values, U_10_square_inch_in_square_centimetres) {
  expect_value(converted("1 in2", "cm2", Quantity::area), 6.4516, 6.452, 0.05);
}

// Esposito, Example 2-10, p. 56.
TEST(check_values, U_11_forty_below_is_the_same_in_celsius_and_fahrenheit) {
  expect_value(converted("-40 degC", "degF", Quantity::temperature), -40.0, -40.0, 0.05);
}

// By the definitions of bar and litre: P[kW] = p[bar]·Q[L/min]/600.
TEST(check_values, U_12_hundred_bar_and_six_litres_per_minute_are_one_kilowatt) {
  const double power = si_of("100 bar", Quantity::pressure) * si_of("6 L/min", Quantity::flow);
  expect_value(in("kW", power, Quantity::power), 1.0, 1.0, 0.001);
}

// By definition; the trade's "700 bar = 10,000 psi" is nominal, 1.5 % apart.
TEST(check_values, U_13_ten_thousand_psi_and_700_bar_in_each_others_unit) {
  expect_value(converted("10000 psi", "bar", Quantity::pressure), 689.4757293, 689.4757, 0.001);
  expect_value(converted("700 bar", "psi", Quantity::pressure), 10152.64164, 10152.642, 0.001);
}

// Esposito, Example 2-13, p. 62: 250 s in a capillary viscometer of 0.100 cSt/s, 0.89 g/cm3.
TEST(check_values, V_11_capillary_viscometer) {
  const double constant = si_of("0.1 cSt", Quantity::viscosity) / si_of("1 s", Quantity::time);
  const double kinematic = constant * si_of("250 s", Quantity::time);
  expect_value(in("cSt", kinematic, Quantity::viscosity), 25.0, 25.0, 0.05);
  const double centipoise = 1e-3;  // Pa·s, by definition
  expect_value(kinematic * si_of("0.89 g/cm3", Quantity::density) / centipoise, 22.25, 22.3, 0.25);
}

// Esposito, Example 2-18, p. 68: μ = (F/A)/(v/y).
TEST(check_values, V_12_definition_of_viscosity) {
  const double stress = si_of("10 N", Quantity::force) / si_of("1 m2", Quantity::area);
  const double shear = si_of("1 m/s", Quantity::speed) / si_of("5 mm", Quantity::length);
  expect_value(stress / shear, 0.05, 0.05, 0.05);
  expect_value(stress / shear / 1e-3, 50.0, 50.0, 0.05);  // cP
}

// SAE J517: the dash number is the inside diameter in sixteenths of an inch; table in millimetres read in a
// secondary text.
TEST(check_values, SZ_02_dash_sizes_of_hoses_in_millimetres) {
  expect_value(converted("0.25 in", "mm", Quantity::length), 6.35, 6.4, 0.85);
  expect_value(converted("0.375 in", "mm", Quantity::length), 9.525, 9.5, 0.3);
  expect_value(converted("0.5 in", "mm", Quantity::length), 12.7, 12.7, 0.05);
  expect_value(converted("0.75 in", "mm", Quantity::length), 19.05, 19.0, 0.3);
  expect_value(converted("1 in", "mm", Quantity::length), 25.4, 25.4, 0.05);
}

}  // namespace
}  // namespace poise::units
