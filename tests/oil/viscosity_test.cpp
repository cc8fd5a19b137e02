// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Viscosity under pressure against the laws' own words and published figures.
#include "oil/viscosity.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "oil/fluid.hpp"
#include "oil/oil.hpp"
#include "quantity/quantity.hpp"

namespace poise {
namespace {

OilData thickening(PressureViscosity law) {
  OilData data;
  data.pressure_viscosity = law;
  return data;
}

/// Growth of the dynamic viscosity, η = ν·ρ. At the pressures asked for, the air in it weighs nothing beside
/// the liquid: ρ is Murnaghan's.
double growth(const OilData& data, double p) {
  const Oil oil{data};
  const double dense = std::pow(1 + data.modulus_slope * p / data.modulus, 1 / data.modulus_slope);
  return oil.viscosity(p).value / oil.viscosity() * dense;
}

TEST(viscosity, without_a_law_no_pressure_changes_it) {
  const Oil oil{OilData{}};
  EXPECT_TRUE(oil.viscosity_law().constant());
  for (double p : {-0.9 * si::bar, 0.0, 700 * si::bar}) {
    EXPECT_EQ(oil.viscosity(p).value, oil.viscosity());
    EXPECT_EQ(oil.viscosity(p).slope, 0.0);
  }
}

TEST(viscosity, at_zero_pressure_every_law_gives_the_datasheets_value) {
  for (auto law : {PressureViscosity::barus, PressureViscosity::roelands}) {
    const Oil oil{thickening(law)};
    EXPECT_DOUBLE_EQ(oil.viscosity(0.0).value, oil.viscosity());
    EXPECT_FALSE(oil.viscosity_law().constant());
  }
}

// A. Vacca, G. Franzoni, Hydraulic Fluid Power (2021), 2.6.2: mineral oil, 1.7e-3 1/bar, thickens by about
// 40 % up to 200 bar.
TEST(viscosity, barus_mineral_oil_thickens_by_two_fifths_up_to_200_bar) {
  const double grown = growth(thickening(PressureViscosity::barus), 200 * si::bar);
  EXPECT_NEAR(grown, std::exp(0.34), 1e-12);
  EXPECT_NEAR(grown, 1.4, 0.01);
}

// η = η0·exp((ln η0 + 9.67)·((1 + p/1.962e8)^z − 1)), η0 in Pa·s.
TEST(viscosity, roelands_in_the_words_of_its_law) {
  const OilData data = thickening(PressureViscosity::roelands);
  const Oil oil{data};
  const double s = std::log(oil.viscosity() * oil.density_at_zero()) + 9.67;
  const double z = data.pressure_viscosity_coefficient * 1.962e8 / s;
  for (double p : {50 * si::bar, 350 * si::bar, 700 * si::bar})
    EXPECT_NEAR(growth(data, p), std::exp(s * (std::pow(1 + p / 1.962e8, z) - 1)), 1e-12 * growth(data, p));
}

// Roelands' z of mineral oils is about 0.6 (Roelands 1966; from memory: 0.5 to 0.7).
TEST(viscosity, the_exponent_of_a_mineral_oil_is_between_one_half_and_seven_tenths) {
  const double z = roelands_exponent(2.0e-8, 0.04);
  EXPECT_GT(z, 0.5);
  EXPECT_LT(z, 0.7);
}

// Both start with the same slope; Roelands' thickens less and less (z < 1).
TEST(viscosity, roelands_starts_as_barus_and_stays_below_it) {
  const OilData barus = thickening(PressureViscosity::barus),
                roelands = thickening(PressureViscosity::roelands);
  EXPECT_NEAR(Oil(barus).viscosity(0.0).slope, Oil(roelands).viscosity(0.0).slope,
              1e-12 * Oil(barus).viscosity(0.0).slope);
  double share = 1.0;
  for (double p : {100 * si::bar, 350 * si::bar, 700 * si::bar}) {
    const double here = growth(roelands, p) / growth(barus, p);
    EXPECT_LT(here, share);
    share = here;
  }
}

// The slope by central difference, also for oil whose modulus does not grow, and under vacuum.
TEST(viscosity, slope_is_that_of_the_value) {
  for (auto law : {PressureViscosity::barus, PressureViscosity::roelands})
    for (double modulus_slope : {0.0, 1.0, 9.0}) {
      OilData data = thickening(law);
      data.modulus_slope = modulus_slope;
      const Oil oil{data};
      for (double p : {-0.5 * si::bar, 0.0, 20 * si::bar, 700 * si::bar}) {
        const double h = 1 * si::bar;
        const double slope = (oil.viscosity(p + h).value - oil.viscosity(p - h).value) / (2 * h);
        EXPECT_NEAR(oil.viscosity(p).slope, slope, 1e-6 * slope) << p;
      }
    }
}

// A thinner oil at a higher temperature, thickened from there.
TEST(viscosity, thickens_from_the_value_at_its_temperature) {
  OilData warm = thickening(PressureViscosity::barus);
  warm.temperature = 60 + si::zero_celsius;
  const Oil oil{warm};
  EXPECT_EQ(oil.viscosity(), walther_viscosity(warm.viscosity_40, warm.viscosity_100, warm.temperature));
  EXPECT_NEAR(growth(warm, 300 * si::bar), std::exp(0.51), 1e-12);
}

// C. S. Cragoe, Bureau of Standards Miscellaneous Publication 97 (1929), formula from memory:
// c = (0.388 + 0.00045·t)/√d Btu/(lb·°F); 1 Btu/(lb·°F) = 4186.8 J/(kg·K).
TEST(fluid, mineral_oil_has_the_heat_capacity_of_its_density_at_104_degrees_fahrenheit) {
  const double expected = (0.388 + 0.00045 * 104) / std::sqrt(0.87) * 4186.8;
  EXPECT_NEAR(Oil(OilData{}).heat_capacity(), expected, 5.0);
}

// Water carries more heat, gives less and thickens less under pressure than oil. Common practice.
TEST(fluid, water_glycol_is_denser_stiffer_and_carries_more_heat_than_mineral_oil) {
  const Fluid& glycol = fluids[1];
  ASSERT_EQ(glycol.word, "water glycol");
  EXPECT_GT(glycol.density_15, mineral_oil.density_15);
  EXPECT_GT(glycol.modulus, mineral_oil.modulus);
  EXPECT_GT(glycol.heat_capacity, mineral_oil.heat_capacity);
  EXPECT_LT(glycol.pressure_viscosity_coefficient, mineral_oil.pressure_viscosity_coefficient);
}

}  // namespace
}  // namespace poise
