// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Outside check values of the oil: each figure's source stands beside it. A value is compared at 0.1 % with
// what the inputs give at full precision (`recomputed`), and with the printed figure (`printed`) within its
// own rounding.
//
//   V-01 … V-09, V-14, V-15    here (there are no V-10, V-13)
//   V-11, V-12                 tests/units: they define units of viscosity
//   C-01 … C-07, C-09, C-11, C-12   here (there are no C-08, C-10)
//   T-01 … T-03                here
//   TB-01                      here
//   SZ-01                      area ratio of cylinders: nothing of oil or units
//   SZ-02                      tests/units
//   TB-02 … TB-07              lists of bores, rods, strokes, hoses, line speeds, ratings: nothing of oil
#include <gtest/gtest.h>

#include <cmath>
#include <iterator>
#include <string>

#include "oil/oil.hpp"
#include "oil/viscosity_grade.hpp"
#include "oil/viscosity_index.hpp"
#include "quantity/quantity.hpp"

namespace poise {
namespace {

constexpr double psi = 6894.757293;  // Pa, NIST SP 811

/// `percent`: how far the printed figure may lie off by its rounding.
void expect_value(double found, double recomputed, double printed, double percent) {
  EXPECT_NEAR(found, recomputed, 1e-3 * std::abs(recomputed));
  EXPECT_NEAR(found, printed, percent / 100 * std::abs(printed));
}

double celsius(double t) { return t + si::zero_celsius; }

/// Walther's ordinate log10 log10(ν + 0.7), ν in m2/s.
double ordinate(double viscosity) { return std::log10(std::log10(viscosity / si::mm2_per_s + 0.7)); }

// ---- 2. Oil viscosity -----------------------------------------------------------------------------------

// Worksheet "Viscosity vs Temperature Calculator" citing ASTM D341: 32 and 5.4 mm2/s at 40 and 100 °C; the
// source's constants count 0 °C as 273 K.
TEST(check_values, V_01_walther_interpolation_vg_32) {
  const double at_40 = ordinate(walther_viscosity(32e-6, 5.4e-6, celsius(40)));
  const double at_100 = ordinate(walther_viscosity(32e-6, 5.4e-6, celsius(100)));
  const double b = (at_40 - at_100) / std::log10(373.0 / 313.0);
  expect_value(at_40 + b * std::log10(313.0), 9.525927548, 9.5259, 0.05);
  expect_value(b, 3.744932292, 3.7449, 0.05);
  expect_value(walther_viscosity(32e-6, 5.4e-6, celsius(80)), 8.533104057e-6, 8.5e-6, 0.45);
}

// Example 1 on a lubricant page on ASTM viscosity-temperature charts: gear oil of 404 and 28 mm2/s at 60 °C.
TEST(check_values, V_02_walther_interpolation_gear_oil) {
  expect_value(walther_viscosity(404e-6, 28e-6, celsius(60)), 132.1261376e-6, 132.126e-6, 0.05);
}

// Example 2 of the same page: 68 mm2/s at 40 °C and 14.85 at 80 °C; the index from the rounded 8.8 mm2/s.
TEST(check_values, V_03_walther_extrapolation_to_100_degrees_and_its_index) {
  const ViscosityPoint at_40{68e-6, celsius(40)}, at_80{14.85e-6, celsius(80)};
  expect_value(walther_viscosity(at_40, at_80, celsius(100)), 8.792393855e-6, 8.8e-6, 0.15);
  expect_value(viscosity_index(68e-6, 8.8e-6), 101.7209406, 102, 0.3);
}

// V-04 to V-07: worked examples of ASTM D2270 = ISO 2909, as carried by the tests of the scientific library
// "chemicals".
TEST(check_values, V_04_viscosity_index_procedure_a) {
  expect_value(viscosity_index(73.3e-6, 8.86e-6), 92.42964725, 92, 0.6);
}
TEST(check_values, V_05_viscosity_index_procedure_b_thin_oil) {
  expect_value(viscosity_index(22.83e-6, 5.05e-6), 156.4234829, 156, 0.6);
}
TEST(check_values, V_06_viscosity_index_procedure_b) {
  expect_value(viscosity_index(53.47e-6, 7.8e-6), 111.307017, 111, 0.6);
}
TEST(check_values, V_07_viscosity_index_procedure_a_second_oil) {
  expect_value(viscosity_index(73.5e-6, 8.86e-6), 92.0332937, 92, 0.6);
}

// Tests of the scientific library "chemicals" (its author's own case).
TEST(check_values, V_08_viscosity_index_above_the_table) {
  expect_value(viscosity_index(1000e-6, 100e-6), 192.9975428, 193, 0.3);
}

// ASTM D2270 = ISO 2909, Table 1.
TEST(check_values, V_09_lines_of_the_table) {
  expect_value(basic_values_at(8e-6).low, 100.0e-6, 100.0e-6, 0.05);
  expect_value(basic_values_at(8e-6).high, 59.6e-6, 59.6e-6, 0.05);
  expect_value(basic_values_at(5e-6).low, 40.23e-6, 40.23e-6, 0.05);
  expect_value(basic_values_at(5e-6).high, 28.49e-6, 28.49e-6, 0.05);
  expect_value(basic_values_at(10e-6).low, 147.7e-6, 147.7e-6, 0.05);
  expect_value(basic_values_at(10e-6).high, 82.87e-6, 82.87e-6, 0.05);
}

// V-14 and V-15: usage examples of a small lubrication library (ASTM D2270).
TEST(check_values, V_14_viscosity_index_of_a_multigrade_oil) {
  expect_value(viscosity_index(104.7e-6, 13.9e-6), 133.6977564, 134, 0.25);
}
TEST(check_values, V_15_viscosity_at_100_degrees_from_the_index) {
  const auto at_100 = viscosity_100_of(112e-6, 130);
  ASSERT_TRUE(at_100);
  expect_value(*at_100, 14.34499377e-6, 14.38e-6, 0.3);
}

// ---- 3. Compressibility, entrained air, wave speed ------------------------------------------------------
//
// The sources take a constant compressibility, dV = V·dp/K. With a modulus that grows by one for one the
// liquid's density is a straight line, ρ = ρ0·(1 + p/K0), which is that law with V as the volume left.
// Oil has air in it, 1e-5 at the least; where a source starts without pressure, the liquid is looked at from
// 100 bar on, where that air is pressed together: with the modulus K there it makes no difference.

constexpr double air_is_gone = 100 * si::bar;

OilData liquid(double modulus, double at) {
  OilData data;
  data.modulus = modulus - at;
  data.modulus_slope = 1.0;
  data.air = 0.0;
  return data;
}

/// dV/V of a liquid of this modulus, by the conservation of its mass.
double squeezed(double modulus, double from, double rise) {
  const Oil oil{liquid(modulus, from)};
  return oil.density(from + rise).value / oil.density(from).value - 1.0;
}

// A. Esposito, Fluid Power with Applications, 6th ed. 2005, Example 2-11, p. 57.
TEST(check_values, C_01_oil_loses_volume_from_100_to_2000_psi) {
  const double inch3 = 16.387064e-6;
  const double lost = -10 * inch3 * squeezed(250000 * psi, 100 * psi, 1900 * psi);
  expect_value(lost / inch3, -0.076, -0.076, 0.05);
}

// Esposito, Example 2-17, p. 67, %.
TEST(check_values, C_02_share_of_volume_lost_up_to_13740_kpa) {
  expect_value(-100 * squeezed(1718e6, 687e3, 13740e3 - 687e3), -0.7597788126, -0.76, 0.05);
}

// J. Sullivan, Fluid Power: Theory and Applications, 4th ed., Example 6.2, p. 115.
TEST(check_values, C_03_share_of_volume_lost_from_1000_to_2000_psi) {
  expect_value(squeezed(350000 * psi, 1000 * psi, 1000 * psi), 0.002857142857, 0.0029, 1.6);
}

// U.S. Navy NAVEDTRA 14105A Fluid Power (2015), ch. 2, %.
TEST(check_values, C_04_water_under_100_psi) {
  expect_value(100 * squeezed(2.2e9, air_is_gone, 100 * psi), 0.03133980588, 0.03, 4.7);
}

// I. A. Khan, Fluid Mechanics, Example 1.2, p. 12, %.
TEST(check_values, C_05_water_under_one_megapascal) {
  expect_value(100 * squeezed(2.2e9, air_is_gone, 1e6), 0.04545454545, 0.045, 1.1);
}

// H. C. Verma, Concepts of Physics, vol. 1, ch. 14: compressibility 50e-11 1/Pa, cm3 of a litre.
TEST(check_values, C_06_a_litre_of_liquid_under_nine_bar) {
  expect_value(1000 * squeezed(1 / 5e-10, air_is_gone, 0.9e6), 0.45, 0.45, 0.05);
}

// A. K. Choudhary and Om Prakash, Fluid Mechanics, Example 2.3, p. 11, kN/m2.
TEST(check_values, C_07_pressure_that_squeezes_water_and_air_by_one_percent) {
  const Oil water{liquid(2.1e9, air_is_gone)};
  double pressure = 0.0;
  ASSERT_TRUE(water.pressure_of(1.01 * water.density(air_is_gone).value, 1.0, 0.0, 0.0, pressure));
  expect_value((pressure - air_is_gone) / 1e3, 21000, 21000, 0.05);

  // Air alone, isothermal: its modulus is its absolute pressure.
  OilData data;
  data.air = 1.0;
  data.air_exponent = 1.0;
  const Oil air{data};
  const double from = 140e3 - si::atmosphere;
  EXPECT_NEAR(air.effective_modulus(from), 140e3, 1.0);
  ASSERT_TRUE(air.pressure_of(1.01 * air.density(from).value, 1.0, 0.0, 0.0, pressure));
  expect_value((pressure - from) / 1e3, 1.4, 1.4, 0.05);
}

// E. O. Doebelin, System Dynamics, on fluid elements: 1 % air by volume at 500 psi absolute, steel pipe with
// D/t = 10. 1/K_e = 1/K_l + φ/K_g + (D/t)/E counts the liquid as the whole volume, our mixture as 99 % of it:
// its modulus is 0.99·K_l here.
TEST(check_values, C_09_effective_modulus_with_air_in_a_steel_pipe) {
  const double share = 0.01, at = 500 * psi - si::atmosphere;
  OilData data;
  data.modulus = (1 - share) * 250000 * psi;
  data.modulus_slope = 0.0;
  data.air_exponent = 1.0;  // so that K_g is the absolute pressure
  const double air = share * 500 * psi / si::atmosphere, rest = (1 - share) * std::exp(at / data.modulus);
  data.air = air / (air + rest);
  const Oil oil{data};
  // Pumping in the share dm/m raises the pressure by K_e·dm/m, walls included.
  const double wall = 10 / (3e7 * psi), volume = 1.0 - wall * at;  // in all 1 m3 at that pressure
  double low = 0.0, high = 0.0;
  const double mass = oil.density(at).value, step = 1e-5;
  ASSERT_TRUE(oil.pressure_of(mass * (1 - step), volume, wall, at, low));
  ASSERT_TRUE(oil.pressure_of(mass * (1 + step), volume, wall, at, high));
  expect_value((high - low) / (2 * step) / psi, 41095.89041, 41096, 0.05);
}

// I. A. Khan, Fluid Mechanics, Example 11.4, p. 426: c = √(K/ρ).
TEST(check_values, C_11_speed_of_sound_in_water_and_alcohol) {
  const auto speed = [](double modulus, double density) {
    OilData data = liquid(modulus, air_is_gone);
    data.density_15 *= density / Oil(data).density(air_is_gone).value;
    const Oil oil{data};
    return std::sqrt(oil.effective_modulus(air_is_gone) / oil.density(air_is_gone).value);
  };
  expect_value(speed(2.2e9, 1000), 1483.239697, 1483, 0.05);
  expect_value(speed(1.21e9, 790), 1237.596691, 1238, 0.05);
}

// Arithmetic on the modulus of C-02, %: straight, and with a constant tangent modulus.
TEST(check_values, C_12_oil_at_700_bar_straight_and_exponential) {
  expect_value(100 * squeezed(1718e6, air_is_gone, 700 * si::bar), 4.074505239, 4.0745, 0.05);
  OilData data;
  data.modulus = 1718e6;
  data.modulus_slope = 0.0;
  data.air = 0.0;
  const Oil oil{data};
  const double left = oil.density(air_is_gone).value / oil.density(air_is_gone + 700 * si::bar).value;
  expect_value(100 * (1 - left), 3.992613271, 3.9926, 0.05);
}

// ---- 4. Thermal expansion of trapped liquid -------------------------------------------------------------

/// Liquid of constant modulus that was warmed up: `grown` is the share by which its volume without pressure
/// grew over `rise` kelvins from 15 °C.
OilData warmed(double modulus, double grown, double rise, double by) {
  OilData data;
  data.modulus = modulus;
  data.modulus_slope = 0.0;
  data.air = 0.0;
  data.expansivity = (1 - 1 / (1 + grown)) / rise;
  data.temperature = celsius(15 + by);
  return data;
}

// J. M. Smith, H. C. Van Ness, M. M. Abbott, Introduction to Chemical Engineering Thermodynamics, 6th ed.,
// Example 3.1, p. 46: acetone locked at constant volume, (∂p/∂T)_V = β/κ. β and κ are shares of the volume of
// the moment, so the volume without pressure grows by exp(β·10 K) over the ten kelvins.
TEST(check_values, T_01_locked_acetone_gains_24_bar_per_kelvin) {
  const double beta = 0.001487, modulus = 1 / 6.2e-10, little = 0.01;
  const auto rise = [&](double grown, double by) {
    const Oil cold{warmed(modulus, grown, by, 0.0)}, warm{warmed(modulus, grown, by, by)};
    double pressure = 0.0;
    EXPECT_TRUE(warm.pressure_of(cold.density(air_is_gone).value, 1.0, 0.0, 0.0, pressure));
    return pressure - air_is_gone;
  };
  expect_value(rise(beta * little, little) / little / si::bar, 23.98387097, 24, 0.1);
  const double end = 1 * si::bar + rise(std::exp(beta * 10) - 1, 10.0);  // from 1 bar
  expect_value(end / si::bar, 240.8387097, 241, 0.1);
}

// OpenStax College Physics, thermal expansion of solids and liquids: gasoline in a steel tank.
TEST(check_values, T_02_a_full_tank_spills_when_it_warms_up) {
  const double tank = 60 * si::litre, liquid_grown = 0.00095 * 20, tank_grown = 3.5e-5 * 20;
  const Oil cold{warmed(1e9, liquid_grown, 20, 0.0)}, warm{warmed(1e9, liquid_grown, 20, 20)};
  const double mass = cold.density_at_zero() * tank;
  const double spilled = mass / warm.density_at_zero() - tank * (1 + tank_grown);
  expect_value(spilled / si::litre, 1.098, 1.10, 0.25);
}

// OpenStax College Physics, "Calculating Thermal Stress: Gas Pressure": the same tank sealed, 1.10 L too much
// in it, modulus 1.00 GPa; the straight law as above.
TEST(check_values, T_03_the_same_tank_sealed) {
  const Oil gasoline{liquid(1e9, air_is_gone)};
  const double mass = gasoline.density(air_is_gone).value * (60 + 1.1) * si::litre;
  double pressure = 0.0;
  ASSERT_TRUE(gasoline.pressure_of(mass, 60 * si::litre, 0.0, 0.0, pressure));
  expect_value(pressure - air_is_gone, 18333333.33, 1.83e7, 0.25);
}

// ---- 18. Preferred sizes --------------------------------------------------------------------------------

struct GradeLimits {
  double name, midpoint, low, high;  ///< mm2/s; limits as printed
  double low_percent, high_percent;  ///< by which the printed limits are rounded
};

// ISO 3448:1992, table of grades, read in a secondary text that rounds the four thinnest grades; recomputed
// limits are 10 % to either side of the midpoint.
TEST(check_values, TB_01_grades_of_iso_3448_and_their_limits) {
  const GradeLimits limits[] = {{2, 2.2, 2.0, 2.4, 1.1, 0.9},        {3, 3.2, 2.9, 3.5, 0.75, 0.65},
                                {5, 4.6, 4.1, 5.1, 1.05, 0.85},      {7, 6.8, 6.1, 7.5, 0.4, 0.3},
                                {10, 10, 9, 11, 0.05, 0.05},         {15, 15, 13.5, 16.5, 0.05, 0.05},
                                {22, 22, 19.8, 24.2, 0.05, 0.05},    {32, 32, 28.8, 35.2, 0.05, 0.05},
                                {46, 46, 41.4, 50.6, 0.05, 0.05},    {68, 68, 61.2, 74.8, 0.05, 0.05},
                                {100, 100, 90, 110, 0.05, 0.05},     {150, 150, 135, 165, 0.05, 0.05},
                                {220, 220, 198, 242, 0.05, 0.05},    {320, 320, 288, 352, 0.05, 0.05},
                                {460, 460, 414, 506, 0.05, 0.05},    {680, 680, 612, 748, 0.05, 0.05},
                                {1000, 1000, 900, 1100, 0.05, 0.05}, {1500, 1500, 1350, 1650, 0.05, 0.05}};
  ASSERT_EQ(viscosity_grades.size(), std::size(limits));
  for (std::size_t i = 0; i < std::size(limits); ++i) {
    const ViscosityGrade& grade = viscosity_grades[i];
    EXPECT_EQ(grade.word, "ISO VG " + std::to_string(static_cast<int>(limits[i].name)));
    EXPECT_NEAR(grade.midpoint, limits[i].midpoint * 1e-6, 1e-15);
    expect_value(grade.lowest() * 1e6, 0.9 * limits[i].midpoint, limits[i].low, limits[i].low_percent);
    expect_value(grade.highest() * 1e6, 1.1 * limits[i].midpoint, limits[i].high, limits[i].high_percent);
  }
}

}  // namespace
}  // namespace poise
