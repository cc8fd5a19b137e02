// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The command as a practitioner meets it: what it says and how it ends.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/run_program.hpp"

namespace poise {
namespace {

using testing::HasSubstr;
using testing::Not;

constexpr int held = 0, broken = 1, cannot = 2;

TEST(prove, the_example_jobs_hold) {
  for (const char* job : {"jobs/drilling-stand.toml", "jobs/axle-box-lift.toml"}) {
    const Ran ran = run_program(std::string("prove ") + job);
    EXPECT_EQ(ran.exit_code, held) << ran.text;
    EXPECT_THAT(ran.text, Not(HasSubstr("BROKEN"))) << job;
  }
}

TEST(prove, a_sequence_valve_set_too_low_is_seen) {
  const Ran ran = run_program("prove jobs/drilling-stand-sequence-too-low.toml");
  EXPECT_EQ(ran.exit_code, broken);
  EXPECT_THAT(ran.text, testing::ContainsRegex("BROKEN +seated before any clamp moves"));
}

TEST(prove, a_needle_too_far_open_is_seen) {
  const Ran ran = run_program("prove jobs/axle-box-lift-needle-too-far-open.toml");
  EXPECT_EQ(ran.exit_code, broken);
  EXPECT_THAT(ran.text, testing::ContainsRegex("BROKEN +never faster down than 12 mm/s"));
  EXPECT_THAT(ran.text, testing::ContainsRegex("BROKEN +stays level"));
}

TEST(prove, no_colour_codes_are_written_to_a_pipe) {
  EXPECT_THAT(run_program("prove jobs/drilling-stand.toml").text, Not(HasSubstr("\033[")));
}

TEST(prove, json_says_the_same_as_the_text) {
  const Ran ran = run_program("prove --json jobs/drilling-stand-sequence-too-low.toml");
  EXPECT_EQ(ran.exit_code, broken);
  const auto verdict = nlohmann::json::parse(ran.text);
  EXPECT_FALSE(verdict.at("holds"));
  int count = 0;
  for (const auto& finding : verdict.at("findings")) count += !finding.at("held");
  EXPECT_EQ(count, 1);
  EXPECT_EQ(verdict.at("findings").at(0).at("name"), "seated before any clamp moves");
}

TEST(prove, trace_is_a_table_of_plain_numbers_with_units_in_its_header) {
  const ScratchFile csv("trace.csv", "");
  const Ran ran = run_program("prove jobs/axle-box-lift.toml --trace '" + csv.path() + "'");
  EXPECT_EQ(ran.exit_code, held);
  std::istringstream lines(contents(csv.path()));
  std::string header, line;
  ASSERT_TRUE(std::getline(lines, header));
  EXPECT_THAT(header, testing::StartsWith("time [s],"));
  EXPECT_THAT(header, HasSubstr("C1.A.pressure [bar]"));
  EXPECT_THAT(header, HasSubstr("C1.position [mm]"));
  const auto columns = std::ranges::count(header, ',') + 1;
  double before = -1.0;
  int rows = 0;
  while (std::getline(lines, line)) {
    ASSERT_EQ(std::ranges::count(line, ',') + 1, columns) << line;
    std::istringstream cells(line);
    std::string cell;
    bool first = true;
    while (std::getline(cells, cell, ',')) {
      std::size_t used = 0;
      const double value = std::stod(cell, &used);
      ASSERT_EQ(used, cell.size()) << cell;
      if (first) {
        EXPECT_GE(value, before);
        before = value;
      }
      first = false;
    }
    ++rows;
  }
  EXPECT_GT(rows, 100);
}

TEST(prove, a_trace_that_cannot_be_written_is_named_before_the_run) {
  const Ran ran = run_program("prove jobs/drilling-stand.toml --trace /no/such/folder/x.csv");
  EXPECT_EQ(ran.exit_code, cannot);
  EXPECT_THAT(ran.text, HasSubstr("/no/such/folder/x.csv cannot be written"));
}

TEST(prove, a_file_that_is_no_job_is_refused_in_words) {
  const ScratchFile empty("empty.toml", ""), binary("binary.toml", std::string("\x7f"
                                                                               "ELF\0\0\x01",
                                                                               7));
  for (const std::string& path :
       {empty.path(), binary.path(), std::string("no-such-job.toml"), std::string("jobs")}) {
    const Ran ran = run_program("prove '" + path + "'");
    EXPECT_EQ(ran.exit_code, cannot) << ran.text;
    EXPECT_THAT(ran.text, HasSubstr(path));
    EXPECT_GT(ran.text.size(), path.size() + 10);
  }
}

std::string with(std::string text, const std::string& piece, const std::string& instead) {
  const auto at = text.find(piece);
  EXPECT_NE(at, std::string::npos) << piece;
  return text.replace(at, piece.size(), instead);
}
Ran prove_text(const std::string& text) {
  const ScratchFile job("job.toml", text);
  return run_program("prove '" + job.path() + "'");
}

const std::string lift = contents(POISE_SOURCE_DIR "/jobs/axle-box-lift.toml");

TEST(prove, a_missing_part_is_named_at_each_line_that_needs_it) {
  const Ran ran = prove_text(with(lift, "[parts.G1]", "[parts.G9]"));
  EXPECT_EQ(ran.exit_code, cannot);
  EXPECT_THAT(ran.text, HasSubstr("G1"));
  EXPECT_THAT(ran.text, HasSubstr("there is no part \"G1\"; known are"));
}

TEST(prove, a_port_connected_to_nothing_is_named) {
  const Ran ran = prove_text(with(lift, "to = [\"V4.A\", \"G1.M\"]", "to = [\"V4.A\"]"));
  EXPECT_EQ(ran.exit_code, cannot);
  EXPECT_THAT(ran.text, HasSubstr("G1.M (measuring point) is connected to nothing"));
}

TEST(prove, negative_and_absurd_values_and_wrong_units_are_all_reported_at_once) {
  std::string text = with(lift, "setting = \"140 bar\"", "setting = \"-140 bar\"");
  text = with(text, "flow = \"8 L/min\"", "flow = \"8 bar\"");
  text = with(text, "mass = \"2.5 t\"", "mass = \"2500000 t\"");
  text = with(text, "bore = \"60 mm\"", "bore = 60");
  const Ran ran = prove_text(text);
  EXPECT_EQ(ran.exit_code, cannot);
  EXPECT_THAT(ran.text, HasSubstr("4 complaints"));
  EXPECT_THAT(ran.text, testing::ContainsRegex("setting of V2.*-140 bar"));
  EXPECT_THAT(ran.text, testing::ContainsRegex("\"8 bar\" is a pressure; expected a flow"));
}

const std::string dead_head = R"(
title = "Dead head"
[parts.T1]
kind = "reservoir"
usable_oil = "5 L"
[parts.P1]
kind = "pump"
flow = "2 L/min"
rated_pressure = "250 bar"
[parts.G1]
kind = "gauge"
range = "400 bar"
[[lines]]
from = "T1.T"
to = "P1.S"
[[lines]]
from = "P1.P"
to = "G1.M"
[[steps]]
name = "run"
set = { P1 = "on" }
lasts = "10 s"
[[require]]
never_above = "G1.pressure"
limit = "350 bar"
)";

TEST(prove, a_dead_headed_pump_without_relief_is_a_clear_caution_and_no_endless_run) {
  const Ran ran = prove_text(dead_head);
  EXPECT_EQ(ran.exit_code, broken) << ran.text;
  EXPECT_THAT(ran.text, HasSubstr("P1 has no relief valve"));
  EXPECT_THAT(ran.text, testing::ContainsRegex("nothing[ \n]+limits[ \n]+it"));
}

TEST(prove, a_condition_that_never_comes_true_ends_the_step_with_its_name) {
  const Ran ran = prove_text(with(lift, "at_most = \"12 s\"", "at_most = \"1 s\""));
  EXPECT_EQ(ran.exit_code, broken) << ran.text;
  EXPECT_THAT(ran.text, testing::ContainsRegex("step \"up\" waited 1 s|\"up\""));
}

TEST(prove, a_second_reservoir_is_a_rule_not_kept) {
  const std::string two = with(
      with(dead_head, "[parts.G1]", "[parts.T2]\nkind = \"reservoir\"\nusable_oil = \"1 L\"\n[parts.G1]"),
      "to = \"G1.M\"", "to = [\"G1.M\", \"T2.T\"]");
  const Ran ran = prove_text(two);
  EXPECT_THAT(ran.text, HasSubstr("are two reservoirs apart in one circuit"));
}

TEST(prove, a_ring_of_checks_is_a_rule_not_kept) {
  std::string text = dead_head + R"(
[parts.V1]
kind = "check"
rated_flow = "10 L/min"
[parts.V2]
kind = "check"
rated_flow = "10 L/min"
[[lines]]
from = "G1.M"
to = ["V1.A", "V2.B"]
[[lines]]
from = "V1.B"
to = "V2.A"
)";
  const Ran ran = prove_text(text);
  EXPECT_THAT(ran.text, HasSubstr("is a ring of 2 checks"));
}

TEST(parts, every_kind_is_listed_and_explained) {
  const Ran list = run_program("parts");
  EXPECT_EQ(list.exit_code, 0);
  for (const char* kind : {"reservoir",
                           "pump",
                           "hand_pump",
                           "relief",
                           "check",
                           "pilot_operated_check",
                           "needle",
                           "one_way_flow_control",
                           "reducing",
                           "sequence",
                           "directional_2_2",
                           "directional_3_2",
                           "directional_4_2",
                           "directional_4_3",
                           "shut_off",
                           "hose",
                           "tube",
                           "gauge",
                           "single_acting_cylinder",
                           "double_acting_cylinder",
                           "swing_clamp",
                           "work_support",
                           "mass",
                           "force",
                           "spring"}) {
    EXPECT_THAT(list.text, HasSubstr(kind));
    const Ran one = run_program(std::string("parts ") + kind);
    EXPECT_EQ(one.exit_code, 0) << kind;
    EXPECT_THAT(one.text, HasSubstr("Parameters"));
    EXPECT_THAT(one.text, HasSubstr("Source"));
  }
}

TEST(parts, the_oil_is_explained_too) {
  const Ran ran = run_program("parts oil");
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_THAT(ran.text, HasSubstr("viscosity_40"));
}

TEST(parts, an_unknown_kind_gets_the_nearest_word) {
  const Ran ran = run_program("parts relif");
  EXPECT_EQ(ran.exit_code, cannot);
  EXPECT_THAT(ran.text, HasSubstr("did you mean relief?"));
}

}  // namespace
}  // namespace poise
