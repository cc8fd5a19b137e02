// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/press_job.hpp"

namespace poise {
namespace {

using reading::complaints_of;
using reading::with;

struct Case {
  std::string_view piece, instead, complaint;
};

void expect_each(std::initializer_list<Case> cases) {
  for (const Case& each : cases) {
    EXPECT_EQ(complaints_of(with(each.piece, each.instead)), std::string(each.complaint) + "\n")
        << each.instead;
  }
}

TEST(Values, the_good_job_has_no_complaint) { EXPECT_EQ(complaints_of(reading::good), ""); }

TEST(Values, a_value_needs_its_unit_and_the_right_kind_of_it) {
  expect_each({
      {R"("180 bar")", R"("210")",
       R"(14:11: setting of V1: "210" has no unit; expected a pressure, such as "210 bar")"},
      {R"("180 bar")", "210",
       R"(14:11: setting of V1: 210 has no unit; expected a pressure, such as "210 bar", in quotation marks)"},
      {R"("180 bar")", R"("180 mm")",
       R"(14:11: setting of V1: "180 mm" is a length; expected a pressure, such as "210 bar")"},
      {R"("180 bar")", "true",
       R"(14:11: setting of V1: found true or false; expected a pressure, such as "210 bar")"},
      {R"("180 bar")", "[1]",
       R"(14:11: setting of V1: found a list; expected a pressure, such as "210 bar")"},
  });
}

TEST(Values, a_value_outside_its_range_is_told_the_range_in_the_units_of_the_job) {
  const std::string_view sentence = "setting of V1 is -20 bar; it must be ";
  expect_each(
      {{R"("180 bar")", R"("-20 bar")", "14:11: setting of V1 is -20 bar; it must be 0.500 bar … 1200 bar"}});
  std::string text = with(R"("180 bar")", R"("-20 bar")");
  text.insert(0, "units = \"us\"\n");
  // 0.5 bar is 7.25 psi and 1200 bar 17,405 psi: 1 bar = 14.5038 psi.
  EXPECT_EQ(complaints_of(text), "15:11: " + std::string(sentence) + "7.25 psi … 17400 psi\n");
}

TEST(Values, the_ends_of_a_range_belong_to_it_in_every_unit) {
  // 1 bar, the lowest rating of a pump, is 14.503773773 psi with ten figures (NIST SP 811: 1 psi = 6894.757
  // Pa).
  EXPECT_EQ(complaints_of(with(R"("250 bar")", R"("1 bar")")), "");
  EXPECT_EQ(complaints_of(with(R"("250 bar")", R"("100 kPa")")), "");
  EXPECT_EQ(complaints_of(with(R"("250 bar")", R"("0.1 MPa")")), "");
}

TEST(Values, words_are_taken_from_their_list) {
  expect_each({
      {R"("tandem")", R"("tandm")",
       R"(18:10: centre of V2: found "tandm"; expected "closed", "open", "tandem", "float" or "regenerative")"},
      {R"(P1 = "on")", "P1 = true", R"(43:14: running of P1: found true or false; expected "off" or "on")"},
  });
}

TEST(Values, a_required_value_is_asked_for_with_an_example) {
  expect_each({
      {"rated_pressure = \"250 bar\"\n", "\n",
       R"(8:8: P1 (pump) needs rated_pressure, a pressure such as "210 bar")"},
      {"centre = \"tandem\"\n", "\n",
       R"(16:8: V2 (directional_4_3) needs centre, "closed", "open", "tandem", "float" or "regenerative")"},
  });
}

TEST(Values, values_that_do_not_go_together_blame_one_of_them) {
  expect_each({
      {"flow = \"2.5 L/min\"\n", "flow = \"2.5 L/min\"\ndisplacement = \"2 cm3/rev\"\n",
       "11:16: P1 (pump): flow and displacement are both given; state one of them"},
      {"flow = \"2.5 L/min\"\n", "\n",
       "8:8: P1 (pump): the pump's flow is missing; state flow, or displacement and speed"},
  });
}

TEST(Values, the_oil_has_some_air_and_one_statement_of_its_viscosity) {
  const std::string_view grade = "grade = \"ISO VG 32\"\n";
  expect_each({
      {grade, "air = \"0 %\"\n", "4:7: air of the oil is 0 %; it must be 0.00100 % … 20.0 %"},
      {grade, "grade = \"ISO VG 32\"\nviscosity_40 = \"32 cSt\"\nviscosity_100 = \"5 cSt\"\n",
       "4:9: grade of the oil: the viscosity is given as well; state the grade or the viscosities, not both"},
      {grade, "viscosity_40 = \"32 cSt\"\n",
       "4:16: viscosity_40 of the oil: state viscosity_100 or viscosity_index as well, or a grade alone"},
      {grade, "viscosity_100 = \"5 cSt\"\n",
       "4:17: viscosity_100 of the oil: goes with viscosity_40; state both, or a grade"},
      {grade, "viscosity_40 = \"32 cSt\"\nviscosity_100 = \"5 cSt\"\nviscosity_index = 95\n",
       "6:19: viscosity_index of the oil: follows from viscosity_40 and viscosity_100; leave out one of the "
       "three"},
      {grade, "grade = \"ISO VG 5\"\nviscosity_index = 150\n",
       "3:1: the oil is too thin for a viscosity index of 150, which needs 2 mm2/s at 100 °C; state "
       "viscosity_40 and viscosity_100"},
      {grade, "pressure_viscosity_coefficient = \"0.02 1/MPa\"\n",
       "4:34: pressure_viscosity_coefficient of the oil: counts for nothing without pressure_viscosity = "
       "\"Barus\" or \"Roelands\""},
      {grade, "viscosity_40 = \"32 cSt\"\nviscosity_100 = \"32 cSt\"\n",
       "5:17: viscosity_100 of the oil: oil is thinner at 100 °C than at 40 °C; viscosity_100 must be below "
       "viscosity_40"},
      {grade, "modulus_slope = true\n",
       "4:17: modulus_slope of the oil: found true or false; expected a plain number, such as \"2.5\""},
      {grade, "modulus_slope = nan\n", "4:17: modulus_slope of the oil: nan is no number to work with"},
      {grade, "modulus_slop = 9\n",
       R"(4:1: the oil has no key "modulus_slop"; did you mean "modulus_slope"?)"},
  });
}

TEST(Values, the_units_of_the_job_are_known_ones) {
  const std::string_view title = "title = \"Bush press\"\n";
  expect_each({
      {title, "units = \"imperial\"\n",
       R"(1:9: units of the job: found "imperial"; expected "metric" or "us")"},
      {title, "units = { pressure = \"mm\" }\n",
       R"(1:22: pressure of [units]: "mm" is no unit of pressure; usual ones are bar, psi, MPa, kPa, Pa, mbar, )"
       R"(kgf/cm2, inHg, mmHg, N/mm2, ksi)"},
      {title, "units = { presure = \"bar\" }\n",
       R"(1:11: [units] has no key "presure"; did you mean "pressure"?)"},
  });
}

}  // namespace
}  // namespace poise
