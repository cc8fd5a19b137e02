// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// How far values may be off, as a job states it.
#include <gmock/gmock.h>

#include <string>

#include "job/edits.hpp"
#include "job/folder.hpp"
#include "job/oil_table.hpp"
#include "job/press_job.hpp"

namespace poise {
namespace {

using reading::complaints_of;
using reading::Folder;
using reading::job_of;
using reading::with;
using testing::HasSubstr;

constexpr std::string_view setting = "setting = \"180 bar\"\n";
constexpr std::string_view grade = "grade = \"ISO VG 32\"\n";

std::string with_setting(std::string_view line) {
  return with(setting, std::string(setting) + std::string(line) + "\n");
}
std::string with_oil(std::string_view line) {
  return with(grade, std::string(grade) + std::string(line) + "\n");
}

/// The only tolerance that the job states.
StatedTolerance only(const Job& job) {
  EXPECT_EQ(job.tolerances.size(), 1u);
  return job.tolerances.empty() ? StatedTolerance{} : job.tolerances[0];
}

std::string name_of(const Job& job, const StatedTolerance& stated) {
  if (stated.part < 0) return "oil." + std::string(oil_parameters()[stated.parameter].name);
  const PlannedPart& part = job.plan.parts[stated.part];
  return part.tag + "." + std::string(part.kind->parameters[stated.parameter].name);
}

void expect_tolerance(const std::string& text, const std::string& name, const Tolerance& expected) {
  const Job job = job_of(text);
  const StatedTolerance found = only(job);
  EXPECT_EQ(name_of(job, found), name);
  EXPECT_EQ(found.tolerance.of, expected.of);
  EXPECT_NEAR(found.tolerance.below, expected.below, 1e-12 * (1.0 + expected.below));
  EXPECT_NEAR(found.tolerance.above, expected.above, 1e-12 * (1.0 + expected.above));
  EXPECT_FALSE(found.from_list);
}

constexpr auto value = Tolerance::Of::value, absolute = Tolerance::Of::absolute;

TEST(JobTolerance, is_a_share_or_a_difference_to_both_sides_or_a_pair) {
  struct Case {
    std::string_view written;
    Tolerance expected;
  };
  for (const Case& each : {Case{R"("3 %")", {0.03, 0.03}},
                           {R"("5 bar")", {5e5, 5e5, absolute}},
                           {R"(["-5 %", "+3 %"])", {0.05, 0.03}},
                           {R"(["−5 %", "3 %"])", {0.05, 0.03}},
                           {R"(["-10 bar", "4 bar"])", {10e5, 4e5, absolute}},
                           {R"(["-145.037738 psi", 0])", {10e5, 0.0, absolute}},
                           {R"([0, "8 %"])", {0.0, 0.08}},
                           {R"("0 %")", {0.0, 0.0}}}) {
    SCOPED_TRACE(each.written);
    const Job job = job_of(with_setting("setting_tolerance = " + std::string(each.written)));
    const Tolerance found = only(job).tolerance;
    EXPECT_EQ(found.of, each.expected.of);
    EXPECT_NEAR(found.below, each.expected.below, each.expected.of == absolute ? 0.01 : 1e-12);
    EXPECT_NEAR(found.above, each.expected.above, each.expected.of == absolute ? 0.01 : 1e-12);
  }
}

TEST(JobTolerance, of_a_share_is_in_percentage_points_or_a_share_of_it) {
  const std::string pump = "rated_pressure = \"250 bar\"\n";
  const auto text = [&](const std::string& written) {
    return with(pump, pump + "volumetric_efficiency_tolerance = " + written + "\n");
  };
  expect_tolerance(text(R"(["-4 points", "1 point"])"), "P1.volumetric_efficiency", {0.04, 0.01, absolute});
  expect_tolerance(text("\"2 %\""), "P1.volumetric_efficiency", {0.02, 0.02, value});
  EXPECT_THAT(complaints_of(text("0.02")), HasSubstr("percentage points such as \"2 points\""));
  EXPECT_THAT(complaints_of(text("\"2 bar\"")), HasSubstr("expected \"3 %\" of it or percentage points"));
}

TEST(JobTolerance, of_a_line_is_that_of_its_hose_and_knows_its_place) {
  const Job job =
      job_of(with("hose = { bore = \"8 mm\"", "hose = { expansion_tolerance = \"40 %\", bore = \"8 mm\""));
  const StatedTolerance found = only(job);
  EXPECT_EQ(name_of(job, found), "H1.expansion");
  EXPECT_DOUBLE_EQ(found.tolerance.above, 0.4);
  EXPECT_EQ(found.place.line, 37);
}

TEST(JobTolerance, of_the_oil_stands_at_its_line_of_the_table) {
  expect_tolerance(with_oil("viscosity_tolerance = \"15 %\""), "oil.viscosity_40", {0.15, 0.15});
  expect_tolerance(with_oil("viscosity_tolerance = [\"-2 mm2/s\", \"3 mm2/s\"]"), "oil.viscosity_40",
                   {2e-6, 3e-6, absolute});
  expect_tolerance(with_oil("air_tolerance = [\"-0.4 points\", \"3 points\"]"), "oil.air",
                   {0.004, 0.03, absolute});
  expect_tolerance(with_oil("modulus_tolerance = \"100 MPa\""), "oil.modulus", {1e8, 1e8, absolute});
  EXPECT_EQ(only(job_of(with_oil("modulus_tolerance = \"5 %\""))).part, -1);
}

TEST(JobTolerance, the_oil_has_a_range_of_temperatures) {
  const Job job = job_of(with_oil("temperature_range = [\"50 degF\", \"55 degC\"]"));
  ASSERT_TRUE(job.oil_temperatures);
  EXPECT_NEAR(job.oil_temperatures->coldest, 283.15, 1e-9);
  EXPECT_NEAR(job.oil_temperatures->hottest, 328.15, 1e-9);
  EXPECT_FALSE(job_of(std::string(reading::good)).oil_temperatures);
}

TEST(JobTolerance, what_is_wrong_with_a_range_of_temperatures_is_said_at_its_place) {
  const auto about = [](std::string_view range) {
    return complaints_of(with_oil("temperature_range = " + std::string(range)));
  };
  EXPECT_EQ(about(R"(["45 degC", "55 degC"])"),
            "5:21: temperature_range of the oil: the oil's temperature, 40.0 degC, is not in it\n");
  EXPECT_EQ(about(R"(["55 degC", "10 degC"])"),
            "5:21: temperature_range of the oil: the coldest stands first, and it is above the hottest\n");
  EXPECT_THAT(about(R"("10 degC")"), HasSubstr("5:21: temperature_range of the oil: expected the coldest"));
  EXPECT_THAT(about(R"(["10 bar", "55 degC"])"), HasSubstr("5:22: temperature_range of the oil: \"10 bar\""));
  EXPECT_THAT(about(R"(["-60 degC", "55 degC"])"), HasSubstr("it must be -40.0 degC"));
}

TEST(JobTolerance, an_unknown_name_is_told_with_the_nearest) {
  EXPECT_EQ(complaints_of(with_setting("seting_tolerance = \"3 %\"")),
            "15:1: V1 (relief) has no key \"seting_tolerance\"; did you mean \"setting_tolerance\"?\n");
  EXPECT_EQ(complaints_of(with_setting("setting_tolerence = \"3 %\"")),
            "15:1: V1 (relief) has no key \"setting_tolerence\"; did you mean \"setting_tolerance\"?\n");
  EXPECT_EQ(complaints_of(with_oil("viscosity_40_tolerance = \"3 %\"")),
            "5:1: the oil has no key \"viscosity_40_tolerance\"; did you mean \"viscosity_tolerance\"?\n");
  EXPECT_EQ(complaints_of(with_oil("temperature_ranges = [\"3 degC\", \"50 degC\"]")),
            "5:1: the oil has no key \"temperature_ranges\"; did you mean \"temperature_range\"?\n");
}

TEST(JobTolerance, a_word_is_never_off) {
  EXPECT_EQ(complaints_of(with("centre = \"tandem\"\n", "centre = \"tandem\"\ncentre_tolerance = \"3 %\"\n")),
            "19:20: centre_tolerance of V2 (directional_4_3): centre is a word and is never off; leave it "
            "out\n");
}

TEST(JobTolerance, what_is_wrong_is_said_at_its_place) {
  const auto about = [](std::string_view written) {
    return complaints_of(with_setting("setting_tolerance = " + std::string(written)));
  };
  EXPECT_THAT(
      about("\"5 L/min\""),
      HasSubstr("15:21: setting_tolerance of V1 (relief): \"5 L/min\" is a flow; expected a pressure"));
  EXPECT_THAT(about("3"), HasSubstr("15:21: setting_tolerance of V1 (relief): 3 has no unit; expected"));
  EXPECT_THAT(about("true"), HasSubstr("found true or false"));
  EXPECT_THAT(about("\"-3 %\""), HasSubstr("one number goes to both sides and has no minus"));
  EXPECT_THAT(about(R"(["2 %", "3 %"])"),
              HasSubstr("15:22: setting_tolerance of V1 (relief): the lower end is above zero"));
  EXPECT_THAT(about(R"(["-2 %", "-1 %"])"),
              HasSubstr("15:30: setting_tolerance of V1 (relief): the upper end is below zero"));
  EXPECT_THAT(about(R"(["-2 %"])"), HasSubstr("found a list of 1"));
  EXPECT_THAT(about(R"(["-2 %", "3 bar"])"), HasSubstr("one end is a share and the other a pressure"));
  EXPECT_THAT(about("\"120 %\""), HasSubstr("may not be below its value by more than all of it"));
  EXPECT_THAT(about("\"200 bar\""),
              HasSubstr("setting would be -20.0 bar at its lower end; it must be 0.500 bar"));
}

TEST(JobTolerance, what_is_not_stated_or_zero_cannot_be_off_by_a_share) {
  EXPECT_THAT(complaints_of(with_setting("setting_flow_tolerance = \"3 %\"")),
              HasSubstr("setting_flow is not stated, so that nothing can be off"));
  EXPECT_THAT(complaints_of(with("rated_pressure = \"250 bar\"\n",
                                 "rated_pressure = \"250 bar\"\nwear_tolerance = \"3 %\"\n")),
              HasSubstr("wear is zero, and a share of it is nothing; state percentage points"));
  // A step sets it: there is something to be off.
  expect_tolerance(with("force = \"0 N\"\n", "force = \"0 N\"\nforce_tolerance = \"10 %\"\n"), "F1.force",
                   {0.1, 0.1});
}

TEST(JobTolerance, a_value_that_is_to_be_found_may_have_one) {
  const std::string text = with(setting, "setting = \"find\"\nsetting_tolerance = \"4 %\"\n");
  const auto read = read_job_to_find(text, "job.toml");
  const auto* job = std::get_if<Job>(&read);
  ASSERT_TRUE(job);
  EXPECT_DOUBLE_EQ(only(*job).tolerance.below, 0.04);
}

TEST(JobTolerance, of_a_curve_is_that_of_its_second_values) {
  const std::string curve = "drop_curve = [[\"5 L/min\", \"1 bar\"], [\"20 L/min\", \"9 bar\"]]\n";
  const std::string text = with("rated_flow = \"20 L/min\"\n", curve + "drop_curve_tolerance = \"10 %\"\n");
  expect_tolerance(text, "V2.drop_curve", {0.1, 0.1});
  expect_tolerance(with("rated_flow = \"20 L/min\"\n", curve + "drop_curve_tolerance = \"0.5 bar\"\n"),
                   "V2.drop_curve", {0.5e5, 0.5e5, absolute});
}

TEST(JobTolerance, of_the_list_counts_where_the_job_says_nothing) {
  const Folder folder;
  folder.write("list.csv",
               "model,kind,cost,rated_flow [L/min],setting_tolerance [%],override_tolerance\n"
               "relief 10,relief,50,10,2,-20 %; +40 %\n");
  const auto job_with = [&](std::string_view more) {
    std::string text = with("setting = \"180 bar\"\nrated_flow = \"10 L/min\"\n",
                            "model = \"relief 10\"\nsetting = \"180 bar\"\n" + std::string(more));
    const auto path = folder.write("job.toml", "stock = \"list.csv\"\n" + text);
    auto read = read_job("stock = \"list.csv\"\n" + text, path.string());
    const auto* job = std::get_if<Job>(&read);
    EXPECT_TRUE(job);
    return job ? *job : Job{};
  };
  const Job listed = job_with("");
  ASSERT_EQ(listed.tolerances.size(), 2u);
  EXPECT_EQ(name_of(listed, listed.tolerances[0]), "V1.setting");
  EXPECT_DOUBLE_EQ(listed.tolerances[0].tolerance.above, 0.02);
  EXPECT_TRUE(listed.tolerances[0].from_list);
  EXPECT_EQ(name_of(listed, listed.tolerances[1]), "V1.override");
  EXPECT_DOUBLE_EQ(listed.tolerances[1].tolerance.below, 0.2);
  EXPECT_DOUBLE_EQ(listed.tolerances[1].tolerance.above, 0.4);

  const Job own = job_with("setting_tolerance = \"5 %\"\n");
  ASSERT_EQ(own.tolerances.size(), 2u);
  EXPECT_DOUBLE_EQ(own.tolerances[0].tolerance.above, 0.05);
  EXPECT_FALSE(own.tolerances[0].from_list);
}

TEST(JobHarm, is_what_a_broken_requirement_does) {
  const auto job_with = [](std::string_view word) {
    return job_of(std::string(reading::good) + "harm = \"" + std::string(word) + "\"\n");
  };
  EXPECT_EQ(job_with("can hurt someone").requirements[0].harm, rules::Harm::hurts);
  EXPECT_EQ(job_with("can damage").requirements[0].harm, rules::Harm::damages);
  EXPECT_EQ(job_with("works badly").requirements[0].harm, rules::Harm::works_badly);
  EXPECT_FALSE(job_of(std::string(reading::good)).requirements[0].harm);
}

TEST(JobHarm, an_unknown_word_is_told_with_the_known_ones) {
  const auto about = [](std::string_view word) {
    return complaints_of(std::string(reading::good) + "harm = \"" + std::string(word) + "\"\n");
  };
  EXPECT_THAT(
      about("can hurt somone"),
      HasSubstr("harm of requirement \"pump is spared\": found \"can hurt somone\"; did you mean \"can "
                "hurt someone\"?"));
  EXPECT_THAT(about("severe"), HasSubstr("expected \"can hurt someone\", \"can damage\" or \"works badly\""));
  EXPECT_THAT(about("worth knowing"), HasSubstr("found \"worth knowing\""));
}

TEST(JobTolerance, edits_of_other_values_leave_it_alone) {
  const std::string text = with_setting("setting_tolerance = [\"-5 %\", \"+3 %\"]  # as set, and drifted");
  const std::string edited = edits::after(text, {edits::set("parts.V1.setting", edits::text("190 bar"))});
  EXPECT_THAT(edited, HasSubstr("setting = \"190 bar\"\nsetting_tolerance = [\"-5 %\", \"+3 %\"]  # as set"));
  EXPECT_DOUBLE_EQ(only(job_of(edited)).tolerance.below, 0.05);
}

}  // namespace
}  // namespace poise
