// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "cli/run_program.hpp"

namespace poise {
namespace {

using testing::HasSubstr;
using testing::Not;

ScratchFile press() { return {"press.toml", contents("jobs/bush-press.toml")}; }

std::string beside(const ScratchFile& file, const std::string& name) {
  return (std::filesystem::path(file.path()).parent_path() / name).string();
}

Ran commission(const ScratchFile& file, const std::string& more) {
  return run_program("commission " + file.path() + " " + more);
}

/// A reading of the sheet that stands at the end of a step.
nlohmann::json one_of(const nlohmann::json& sheet, const std::string& at, const std::string& step) {
  for (const auto& each : sheet["sheet"]) {
    if (each["at"] == at && each["step"] == step && each["when"] == "at the end") return each;
  }
  return {};
}

/// Readings of gauges at the ends of steps: what the sheet says, G1 in "hold" with more on top, bar.
std::string readings(const nlohmann::json& sheet, double more) {
  std::string text = "date = \"2026-11-26\"\n";
  for (const char* at : {"G1", "G2"}) {
    for (const char* step : {"press", "hold"}) {
      const bool raised = std::string(at) == "G1" && std::string(step) == "hold";
      const double value = one_of(sheet, at, step)["should_read"].get<double>() + (raised ? more : 0.0);
      text += "[[readings]]\nat = \"" + std::string(at) + "\"\nstep = \"" + step + "\"\nvalue = \"" +
              std::to_string(value) + " bar\"\n";
    }
  }
  return text;
}

std::string write(const ScratchFile& file, const std::string& name, const std::string& text) {
  std::ofstream(beside(file, name), std::ios::binary) << text;
  return beside(file, name);
}

TEST(commission, prints_what_is_to_be_read_step_by_step_with_its_band) {
  const ScratchFile file = press();
  const Ran ran = commission(file, "");
  EXPECT_EQ(ran.exit_code, 0) << ran.text;
  EXPECT_THAT(ran.text, HasSubstr("19 of 20 sound machines read"));
  EXPECT_LT(ran.text.find("oil's temperature"), ran.text.find("\"press\""));
  EXPECT_LT(ran.text.find("\"press\""), ran.text.find("\"hold\""));
  EXPECT_THAT(ran.text, HasSubstr("C1 takes"));
  EXPECT_THAT(ran.text, HasSubstr("Keep clear of held loads"));
}

TEST(commission, keeps_its_runs_beside_the_job_and_reads_them_again) {
  const ScratchFile file = press();
  const std::string first = commission(file, "").text;
  ASSERT_TRUE(std::filesystem::exists(beside(file, "press.studies")));
  const std::string studies = contents(beside(file, "press.studies"));
  EXPECT_EQ(commission(file, "").text, first);
  EXPECT_EQ(contents(beside(file, "press.studies")), studies);
  EXPECT_EQ(commission(file, "--file " + beside(file, "other")).text, first);
  EXPECT_TRUE(std::filesystem::exists(beside(file, "other")));
}

TEST(commission, a_band_holds_what_the_sound_machine_reads) {
  const ScratchFile file = press();
  const auto sheet = nlohmann::json::parse(commission(file, "--json").text);
  ASSERT_GT(sheet["sheet"].size(), 10u);
  for (const auto& each : sheet["sheet"]) {
    EXPECT_LT(each["low"], each["should_read"]) << each;
    EXPECT_GT(each["high"], each["should_read"]) << each;
  }
  // P1 holds 205 bar once the bush is in, and G1 beside it is a gauge of class 1.6 with a range of 400 bar.
  const auto held = one_of(sheet, "G1", "hold");
  EXPECT_NEAR(held["should_read"].get<double>(), 205.0, 1.0);
  EXPECT_GT(held["high"].get<double>() - held["should_read"].get<double>(), 2.0 * 6.4 / std::sqrt(3.0));
}

TEST(commission, the_table_to_be_filled_in_has_a_row_for_each_reading) {
  const ScratchFile file = press();
  const auto sheet = nlohmann::json::parse(commission(file, "--json").text);
  const std::string table = commission(file, "--csv").text;
  const std::string rows = table.substr(table.find("at,step,when,value,unit"));
  EXPECT_EQ(std::ranges::count(rows, '\n'), static_cast<std::ptrdiff_t>(sheet["sheet"].size()) + 1);
  // Nothing filled in yet: it can be read all the same, or says that there is nothing in it.
  EXPECT_NE(commission(file, write(file, "empty.csv", table)).exit_code, 1);
}

TEST(commission, readings_of_the_sound_machine_are_all_in_their_bands) {
  const ScratchFile file = press();
  const auto sheet = nlohmann::json::parse(commission(file, "--json").text);
  const Ran ran = commission(file, write(file, "day.toml", readings(sheet, 0.0)));
  EXPECT_EQ(ran.exit_code, 0) << ran.text;
  EXPECT_THAT(ran.text, HasSubstr("in its band"));
  EXPECT_THAT(ran.text, Not(HasSubstr("OUT")));
  EXPECT_THAT(ran.text, HasSubstr("strongest evidence"));
  EXPECT_FALSE(std::filesystem::exists(beside(file, "press.baseline.toml")));
}

TEST(commission, a_reading_out_of_its_band_says_by_how_much_and_that_nothing_is_turned_yet) {
  const ScratchFile file = press();
  const auto sheet = nlohmann::json::parse(commission(file, "--json").text);
  const auto held = one_of(sheet, "G1", "hold");
  const double over = held["high"].get<double>() - held["should_read"].get<double>() + 40.0;
  const std::string day = write(file, "day.toml", readings(sheet, over));
  const Ran ran = commission(file, day);
  EXPECT_EQ(ran.exit_code, 1) << ran.text;
  EXPECT_THAT(ran.text, HasSubstr("OUT: 40 bar above"));
  EXPECT_THAT(ran.text, HasSubstr("never raise a relief valve to cure a weakness"));
  const auto json = nlohmann::json::parse(commission(file, day + " --json").text);
  EXPECT_EQ(json["out_of_band"], 1);
  EXPECT_EQ(json["readings"].size(), 4u);
}

TEST(commission, keeps_a_baseline_only_when_asked_and_never_over_another_unless_told) {
  const ScratchFile file = press();
  const auto sheet = nlohmann::json::parse(commission(file, "--json").text);
  const std::string baseline = beside(file, "press.baseline.toml");
  const std::string first = write(file, "first.toml", readings(sheet, 0.0));
  const std::string second = write(file, "second.toml", readings(sheet, 1.0));
  EXPECT_EQ(commission(file, first + " --keep").exit_code, 0);
  const std::string kept = contents(baseline);
  EXPECT_THAT(kept, HasSubstr("G1"));
  const Ran refused = commission(file, second + " --keep");
  EXPECT_EQ(refused.exit_code, 2) << refused.text;
  EXPECT_THAT(refused.text, HasSubstr("--anew"));
  EXPECT_EQ(contents(baseline), kept);
  EXPECT_EQ(commission(file, second + " --keep --anew").exit_code, 0);
  EXPECT_NE(contents(baseline), kept);
  // What is kept reads like any other readings.
  EXPECT_EQ(commission(file, baseline).exit_code, 0);
}

TEST(commission, readings_that_do_not_read_are_complained_about_before_anything_is_run) {
  const ScratchFile file = press();
  const Ran ran = commission(
      file, write(file, "day.toml", "[[readings]]\nat = \"G9\"\nstep = \"hold\"\nvalue = \"200 bar\"\n") +
                " --keep");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.text, HasSubstr("G9"));
  EXPECT_FALSE(std::filesystem::exists(beside(file, "press.studies")));
  EXPECT_FALSE(std::filesystem::exists(beside(file, "press.baseline.toml")));
}

TEST(commission, there_is_nothing_to_keep_without_readings) {
  const ScratchFile file = press();
  const Ran ran = commission(file, "--keep");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.text, HasSubstr("--keep"));
}

TEST(commission, the_papers_take_up_the_bands_of_the_job_as_it_is) {
  const ScratchFile file = press();
  const std::string papers =
      "papers " + file.path() + " --no-pdf --only commissioning -o " + beside(file, "out");
  const std::string html = beside(file, "out/press-commissioning.html");
  EXPECT_EQ(run_program(papers).exit_code, 0);
  EXPECT_THAT(contents(html), HasSubstr("poise commission press.toml"));
  commission(file, "");
  EXPECT_EQ(run_program(papers).exit_code, 0);
  EXPECT_THAT(contents(html), HasSubstr("19 of 20 sound machines read"));
}

}  // namespace
}  // namespace poise
