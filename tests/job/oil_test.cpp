// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What [oil] of a job makes of the oil.
#include <gtest/gtest.h>

#include <string>

#include "job/press_job.hpp"
#include "oil/fluid.hpp"
#include "oil/viscosity_grade.hpp"
#include "oil/viscosity_index.hpp"

namespace poise {
namespace {

constexpr std::string_view grade = "grade = \"ISO VG 32\"\n";

/// The oil of the good job with these lines in [oil].
OilData oil_of(std::string_view lines) { return reading::job_of(reading::with(grade, lines)).plan.oil; }

TEST(Oil, every_grade_of_iso_3448_can_be_named) {
  for (const ViscosityGrade& each : viscosity_grades) {
    const OilData oil = oil_of("grade = \"" + std::string(each.word) + "\"\n");
    EXPECT_EQ(oil.viscosity_40, each.midpoint);
    EXPECT_NEAR(viscosity_index(oil.viscosity_40, oil.viscosity_100), 100.0, 1e-6) << each.word;
  }
}

TEST(Oil, the_viscosity_index_goes_with_a_grade_or_with_the_viscosity_at_40_degrees) {
  const OilData by_grade = oil_of("grade = \"ISO VG 32\"\nviscosity_index = 150\n");
  EXPECT_NEAR(viscosity_index(32e-6, by_grade.viscosity_100), 150.0, 1e-6);
  const OilData by_value = oil_of("viscosity_40 = \"32 cSt\"\nviscosity_index = 150\n");
  EXPECT_EQ(by_value.viscosity_40, 32e-6);
  EXPECT_EQ(by_value.viscosity_100, by_grade.viscosity_100);
  const OilData usual_grade = oil_of("viscosity_index = 150\n");
  EXPECT_EQ(usual_grade.viscosity_40, 46e-6);
  EXPECT_NEAR(viscosity_index(46e-6, usual_grade.viscosity_100), 150.0, 1e-6);
}

TEST(Oil, two_viscosities_stand_as_they_are) {
  const OilData oil = oil_of("viscosity_40 = \"32 cSt\"\nviscosity_100 = \"5.4 cSt\"\n");
  EXPECT_EQ(oil.viscosity_40, 32e-6);
  EXPECT_EQ(oil.viscosity_100, 5.4e-6);
}

TEST(Oil, the_fluid_sets_what_is_not_given) {
  for (const Fluid& fluid : fluids) {
    const OilData oil = oil_of(std::string(grade) + "fluid = \"" + std::string(fluid.word) +
                               "\"\npressure_viscosity = \"Barus\"\n");
    EXPECT_EQ(oil.density_15, fluid.density_15) << fluid.word;
    EXPECT_EQ(oil.expansivity, fluid.expansivity);
    EXPECT_EQ(oil.modulus, fluid.modulus);
    EXPECT_EQ(oil.modulus_slope, fluid.modulus_slope);
    EXPECT_EQ(oil.heat_capacity, fluid.heat_capacity);
    EXPECT_EQ(oil.pressure_viscosity_coefficient, fluid.pressure_viscosity_coefficient);
    EXPECT_NEAR(viscosity_index(oil.viscosity_40, oil.viscosity_100), fluid.viscosity_index, 1e-6);
  }
}

TEST(Oil, a_given_value_counts_before_that_of_the_fluid) {
  const OilData oil = oil_of(
      "fluid = \"water glycol\"\ndensity = \"1060 kg/m3\"\nheat_capacity = \"3.1 kJ/(kg K)\"\n"
      "viscosity_index = 180\n");
  EXPECT_EQ(oil.density_15, 1060.0);
  EXPECT_DOUBLE_EQ(oil.heat_capacity, 3100.0);
  EXPECT_NEAR(viscosity_index(46e-6, oil.viscosity_100), 180.0, 1e-6);
  EXPECT_EQ(oil.modulus, fluids[1].modulus);
}

TEST(Oil, of_a_custom_fluid_nothing_is_assumed) {
  const std::string all =
      "fluid = \"custom\"\ngrade = \"ISO VG 46\"\nviscosity_index = 120\ndensity = \"950 kg/m3\"\n"
      "expansivity = \"7e-4 1/K\"\nmodulus = \"1800 MPa\"\nmodulus_slope = 8\n"
      "heat_capacity = \"2100 J/(kg K)\"\n";
  const OilData oil = oil_of(all);
  EXPECT_EQ(oil.density_15, 950.0);
  EXPECT_EQ(oil.modulus, 1.8e9);
  EXPECT_EQ(oil.modulus_slope, 8.0);
  const std::string complaints =
      reading::complaints_of(reading::with(grade, "fluid = \"custom\"\npressure_viscosity = \"Roelands\"\n"));
  for (std::string_view key : {"density", "expansivity", "modulus", "modulus_slope", "heat_capacity",
                               "viscosity_index", "pressure_viscosity_coefficient"})
    EXPECT_NE(complaints.find("the oil needs " + std::string(key) + ", since its fluid is custom"),
              std::string::npos)
        << key << "\n"
        << complaints;
}

TEST(Oil, the_law_of_viscosity_under_pressure_is_named) {
  EXPECT_EQ(oil_of("").pressure_viscosity, PressureViscosity::none);
  EXPECT_EQ(oil_of("pressure_viscosity = \"none\"\n").pressure_viscosity, PressureViscosity::none);
  EXPECT_EQ(oil_of("pressure_viscosity = \"Barus\"\n").pressure_viscosity, PressureViscosity::barus);
  const OilData oil =
      oil_of("pressure_viscosity = \"Roelands\"\npressure_viscosity_coefficient = \"0.022 1/MPa\"\n");
  EXPECT_EQ(oil.pressure_viscosity, PressureViscosity::roelands);
  EXPECT_DOUBLE_EQ(oil.pressure_viscosity_coefficient, 2.2e-8);
}

}  // namespace
}  // namespace poise
