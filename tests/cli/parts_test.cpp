// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The reference and the curves as a practitioner meets them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "cli/run_program.hpp"

namespace poise {
namespace {

using testing::HasSubstr;

constexpr int held = 0, cannot = 2;

/// A check whose datasheet states its drop as points (invented: 0.02 bar/(L/min)² and 0.1 bar/(L/min)).
std::string job_with(const std::string& check_lines) {
  return R"(
[parts.T1]
kind = "reservoir"
usable_oil = "10 L"
[parts.P1]
kind = "pump"
flow = "5 L/min"
rated_pressure = "250 bar"
[parts.V1]
kind = "relief"
setting = "100 bar"
rated_flow = "10 L/min"
[parts.V2]
kind = "check"
)" + check_lines +
         R"(
[[lines]]
from = "T1.T"
to = ["P1.S", "V1.T", "V2.B"]
[[lines]]
from = "P1.P"
to = ["V1.P", "V2.A"]
[[steps]]
name = "run"
set = { P1 = "on" }
lasts = "1 s"
[[require]]
never_above = "P1.P.pressure"
limit = "100 bar"
)";
}

TEST(curve, points_stand_beside_the_law_with_the_greatest_error) {
  // 0.02·q² + 0.1·q at 5, 10 and 20 L/min: 1.0, 3.0 and 10.0 bar.
  const ScratchFile job("check.toml", job_with(R"(
drop_curve = [["5 L/min", "1 bar"], ["10 L/min", "3 bar"], ["20 L/min", "10 bar"]]
)"));
  const Ran ran = run_program("parts check --curve '" + job.path() + "'");
  EXPECT_EQ(ran.exit_code, held) << ran.text;
  EXPECT_THAT(ran.text, HasSubstr("V2.drop_curve"));
  EXPECT_THAT(ran.text, testing::ContainsRegex("10.0 L/min +3.00 bar +3.00 bar"));
  EXPECT_THAT(ran.text, testing::ContainsRegex("greatest error +[0-9.e-]+ %"));
  EXPECT_EQ(run_program("prove '" + job.path() + "'").exit_code, held);
}

TEST(curve, a_point_out_of_order_is_named_with_its_place) {
  const ScratchFile job("check.toml", job_with(R"(
drop_curve = [["10 L/min", "3 bar"], ["5 L/min", "1 bar"]]
)"));
  const Ran ran = run_program("prove '" + job.path() + "'");
  EXPECT_EQ(ran.exit_code, cannot);
  EXPECT_THAT(ran.text, HasSubstr("check.toml:16:38"));
  EXPECT_THAT(ran.text, HasSubstr("rising order"));
}

TEST(curve, a_single_point_is_too_few_and_a_flow_without_unit_is_refused) {
  const ScratchFile one("check.toml", job_with("drop_curve = [[\"10 L/min\", \"3 bar\"]]"));
  EXPECT_THAT(run_program("prove '" + one.path() + "'").text, HasSubstr("2 points are needed at least"));
  const ScratchFile bare("check.toml", job_with("drop_curve = [[5, \"1 bar\"], [\"10 L/min\", \"3 bar\"]]"));
  EXPECT_THAT(run_program("prove '" + bare.path() + "'").text, HasSubstr("5 has no unit"));
}

TEST(curve, a_part_without_curve_says_how_one_is_stated) {
  const ScratchFile job("check.toml", job_with("rated_flow = \"10 L/min\""));
  const Ran ran = run_program("parts check --curve '" + job.path() + "'");
  EXPECT_EQ(ran.exit_code, cannot);
  EXPECT_THAT(ran.text, HasSubstr("drop_curve = [["));
}

TEST(curve, rated_flow_or_curve_must_be_given) {
  const ScratchFile job("check.toml", job_with(""));
  EXPECT_THAT(run_program("prove '" + job.path() + "'").text, HasSubstr("needs rated_flow"));
}

TEST(reference, the_list_keeps_name_and_sentence_apart_and_within_the_page) {
  const Ran ran = run_program("parts");
  std::istringstream lines(ran.text);
  std::string line;
  std::getline(lines, line);
  while (std::getline(lines, line)) {
    if (line.empty()) continue;
    EXPECT_LE(line.size(), 100U) << line;
    const std::size_t end = line.find(' ', 2);
    ASSERT_NE(end, std::string::npos) << line;
    EXPECT_EQ(line.substr(end, 2), "  ") << line;
  }
  EXPECT_THAT(ran.text, HasSubstr("\n  externally_drained_relief  Pressure-relief valve"));
}

TEST(reference, a_part_says_how_it_is_set_and_what_is_looked_after) {
  const Ran ran = run_program("parts relief");
  EXPECT_EQ(ran.exit_code, held) << ran.text;
  EXPECT_THAT(ran.text, HasSubstr("How it is set\n  setting"));
  EXPECT_THAT(ran.text, HasSubstr("by the gauge at P; rounded down"));
  EXPECT_THAT(ran.text, HasSubstr("the whole pump flow over it"));
  EXPECT_THAT(ran.text, HasSubstr("What is looked after\n"));
  EXPECT_THAT(run_program("parts mass").text, testing::Not(HasSubstr("What is looked after")));
}

TEST(reference, the_whole_of_it_is_written_into_a_folder) {
  const ScratchFile beside("beside.txt", "");
  const auto folder = std::filesystem::path(beside.path()).parent_path() / "parts";
  const Ran ran = run_program("parts --write '" + folder.string() + "'");
  EXPECT_EQ(ran.exit_code, held) << ran.text;
  for (const char* name : {"README.md", "oil.md", "relief.md", "relief.svg"}) {
    const std::string fresh = contents(folder / name);
    EXPECT_FALSE(fresh.empty()) << name;
    EXPECT_TRUE(fresh == contents(std::filesystem::path(POISE_SOURCE_DIR) / "docs/parts" / name))
        << name << " differs: run build/release/poise parts --write docs/parts";
  }
}

TEST(reference, a_folder_that_cannot_be_written_is_named) {
  const ScratchFile file("file.txt", "");
  const Ran ran = run_program("parts --write '" + file.path() + "'");
  EXPECT_EQ(ran.exit_code, cannot);
  EXPECT_THAT(ran.text, HasSubstr("file.txt"));
}

}  // namespace
}  // namespace poise
