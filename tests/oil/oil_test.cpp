// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The oil against published values, and against its own definitions by central differences.
#include "oil/oil.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <utility>
#include <vector>

#include "quantity/quantity.hpp"

namespace poise {
namespace {

constexpr double celsius_60 = 60 + si::zero_celsius;

/// Oils that reach every branch of the laws: as shipped, slow air, no slope, a slope of one, nearly no air,
/// much air.
std::vector<OilData> oils() {
  std::vector<OilData> list(6);
  list[1].air_exponent = 1.0;
  list[2].modulus_slope = 0.0;
  list[3].modulus_slope = 1.0;
  list[4].air = 0.0;
  list[5].air = 0.05;
  return list;
}

const std::vector<double> pressures{
    -0.99 * si::atmosphere, -0.5 * si::atmosphere, -1e3,          1e3, 1 * si::bar,
    20 * si::bar,           250 * si::bar,         1000 * si::bar};

/// Central difference over a thousandth of the absolute pressure: its own error is about 1e-6 of the slope.
template <class F>
double slope_of(F&& f, double p) {
  const double h = 1e-3 * (p + si::atmosphere);
  return (f(p + h) - f(p - h)) / (2 * h);
}
constexpr double difference = 3e-6;

TEST(oil, viscosity_passes_through_its_two_datasheet_points) {
  EXPECT_NEAR(walther_viscosity(46e-6, 6.8e-6, 40 + si::zero_celsius), 46e-6, 1e-12 * 46e-6);
  EXPECT_NEAR(walther_viscosity(46e-6, 6.8e-6, 100 + si::zero_celsius), 6.8e-6, 1e-12 * 6.8e-6);
}

// ρ(T) = ρ15·(1 − β·(T − 15 °C)) at p = 0, the mixture with its air. Common practice.
TEST(oil, density_at_zero_pressure_falls_with_temperature) {
  OilData data;
  data.temperature = celsius_60;
  const double expected = data.density_15 * (1 - data.expansivity * 45.0);
  EXPECT_NEAR(Oil(data).density_at_zero(), expected, 1e-12 * expected);
  EXPECT_NEAR(Oil(data).density(0.0).value, expected, 1e-12 * expected);
}

// v(p)/v(0) = (1 − α)·(1 + m·p/K0)^(−1/m) + α·(p_atm/(p + p_atm))^(1/n): Murnaghan's liquid with polytropic
// air.
TEST(oil, loses_about_four_percent_of_its_volume_at_700_bar) {
  const OilData data;
  const Oil oil{data};
  const double p = 700 * si::bar;
  const double liquid = std::pow(1 + data.modulus_slope * p / data.modulus, -1 / data.modulus_slope);
  const double air = std::pow(si::atmosphere / (p + si::atmosphere), 1 / data.air_exponent);
  const double expected = (1 - data.air) * liquid + data.air * air;
  EXPECT_NEAR(oil.density_at_zero() / oil.density(p).value, expected, 1e-12);
  EXPECT_NEAR(1 - expected, 0.04, 0.005);
}

// Check value C-12: constant modulus of 1718 MPa (Esposito, Example 2-17), at 700 bar 1 − exp(−p/K) = 3.9926
// %. The air that is never quite absent (1e-5) adds 0.00001/0.04 of it.
TEST(oil, without_a_slope_the_compression_is_exponential_c12) {
  OilData data;
  data.modulus = 1718e6;
  data.modulus_slope = 0.0;
  data.air = 0.0;
  const Oil oil{data};
  const double lost = 1 - oil.density_at_zero() / oil.density(700 * si::bar).value;
  EXPECT_NEAR(lost, 0.03992613, 1e-3 * 0.03992613);
}

// The law has no jump as the slope of the modulus goes to zero: the next term is m·(p/K)²/2.
TEST(oil, a_small_slope_of_the_modulus_is_close_to_none) {
  OilData none, small;
  none.modulus_slope = 0.0;
  const double p = 700 * si::bar, x = p / none.modulus;
  for (double m : {1e-3, 1e-6}) {
    small.modulus_slope = m;
    EXPECT_NEAR(Oil(small).density(p).value / Oil(none).density(p).value, 1 - 0.5 * m * x * x, 1e-9 + m * m)
        << m;
  }
}

TEST(oil, effective_modulus_is_density_over_its_slope) {
  for (const OilData& data : oils()) {
    const Oil oil{data};
    for (double p : pressures) {
      const double slope = slope_of([&](double q) { return oil.density(q).value; }, p);
      EXPECT_NEAR(oil.density(p).slope, slope, difference * slope) << p;
      EXPECT_NEAR(oil.effective_modulus(p), oil.density(p).value / slope,
                  difference * oil.effective_modulus(p))
          << p;
    }
  }
}

// 1/K_e is the sum of what liquid and air give, each by its share of the volume there.
TEST(oil, effective_modulus_is_that_of_liquid_and_air_together) {
  const OilData data;
  const double p = 50 * si::bar, absolute = p + si::atmosphere;
  const double liquid =
      (1 - data.air) * std::pow(1 + data.modulus_slope * p / data.modulus, -1 / data.modulus_slope);
  const double air = data.air * std::pow(si::atmosphere / absolute, 1 / data.air_exponent);
  const double give =
      (liquid / (data.modulus + data.modulus_slope * p) + air / (data.air_exponent * absolute)) /
      (liquid + air);
  EXPECT_NEAR(Oil(data).effective_modulus(p), 1 / give, 1e-12 / give);
}

// h = ∫dp/ρ from 0, so h' = 1/ρ and h(0) = 0.
TEST(oil, enthalpy_rises_by_one_over_density) {
  for (const OilData& data : oils()) {
    const Oil oil{data};
    EXPECT_EQ(oil.enthalpy(0.0), 0.0);
    for (double p : pressures) {
      const double expected = 1 / oil.density(p).value;
      EXPECT_NEAR(slope_of([&](double q) { return oil.enthalpy(q); }, p), expected, difference * expected)
          << p;
    }
  }
}

// u = h − p/ρ, so u' = p/ρ²·dρ/dp: the work of squeezing a kilogram. Beside p = 0 it is compared on the scale
// of the atmosphere, where the difference of large numbers is taken.
TEST(oil, strain_energy_rises_by_the_work_of_compression) {
  for (const OilData& data : oils()) {
    const Oil oil{data};
    for (double p : pressures) {
      const auto [density, slope] = oil.density(p);
      const double expected = p / (density * density) * slope;
      const double scale = (std::abs(p) + si::atmosphere) / (density * density) * slope;
      EXPECT_NEAR(slope_of([&](double q) { return oil.strain_energy(q); }, p), expected,
                  difference * scale + 1e-12);
    }
  }
}

// m = ρ(p)·(V + C_wall·p) read backwards, from the right guess and from far-off ones. What is left is
// rounding: of p itself, and of the mass, which a modulus K_e turns into pressure.
TEST(oil, pressure_of_finds_the_pressure_from_any_guess) {
  const double volume = 0.3 * si::litre;
  std::vector<double> places = pressures;
  for (double share : {1e-2, 1e-4, 1e-6}) places.push_back((share - 1.0) * si::atmosphere);  // near vacuum
  places.push_back(0.0);
  for (const OilData& data : oils()) {
    const Oil oil{data};
    for (double wall : {0.0, 0.5e-12, 1e-10}) {
      for (double p : places) {
        const double mass = oil.density(p).value * (volume + wall * p);
        const double rounding =
            32 * std::numeric_limits<double>::epsilon() * (oil.effective_modulus(p) + si::atmosphere);
        for (double guess :
             {p, 0.0, -si::atmosphere, -0.999 * si::atmosphere, 30 * si::bar, 3000 * si::bar}) {
          double found = -1.0;
          ASSERT_TRUE(oil.pressure_of(mass, volume, wall, guess, found)) << p << " from " << guess;
          EXPECT_NEAR(found, p, 1e-9 * (p + si::atmosphere) + rounding)
              << p << " from " << guess << ", wall " << wall;
        }
      }
    }
  }
}

TEST(oil, pressure_of_refuses_what_has_no_pressure) {
  const Oil oil{OilData{}};
  const double nothing = std::numeric_limits<double>::quiet_NaN();
  for (const auto& [mass, volume] : std::vector<std::pair<double, double>>{
           {0.0, 1e-3}, {-0.1, 1e-3}, {nothing, 1e-3}, {0.8, 0.0}, {0.8, -1e-3}, {0.8, nothing}}) {
    double pressure = 42.0;
    EXPECT_FALSE(oil.pressure_of(mass, volume, 0.0, 0.0, pressure)) << mass << ", " << volume;
    EXPECT_EQ(pressure, 42.0);
  }
}

}  // namespace
}  // namespace poise
