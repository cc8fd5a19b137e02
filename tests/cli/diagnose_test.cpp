// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "cli/run_program.hpp"

namespace poise {
namespace {

using testing::HasSubstr;

/// The bush press, whose pump holds 205 bar, with its runs kept for all tests of this file.
class Diagnose : public testing::Test {
 protected:
  static Ran of(const std::string& readings, const std::string& more = "") {
    static const ScratchFile job{"press.toml", contents("jobs/bush-press.toml")};
    const ScratchFile file{"readings.csv", readings};
    return run_program("diagnose " + job.path() + " " + file.path() + " " + more);
  }
};

constexpr std::string_view head = "at,step,value\n";

std::string press_at(const std::string& bar) {
  return std::string(head) + "oil,,40 degC\nG1,hold," + bar + " bar\nG2,hold," + bar +
         " bar\nG1,let off,0 bar\n";
}

TEST_F(Diagnose, finds_nothing_wrong_with_a_sound_machine) {
  const Ran ran = of(press_at("205"));
  EXPECT_EQ(ran.exit_code, 0) << ran.text;
  EXPECT_THAT(ran.text, HasSubstr("nothing wrong"));
  EXPECT_THAT(ran.text, HasSubstr("all readings within their bands"));
  EXPECT_THAT(ran.text, HasSubstr("Keep clear of held loads"));
}

TEST_F(Diagnose, names_a_setting_that_is_too_high) {
  const Ran ran = of(press_at("230"), "--json");
  EXPECT_EQ(ran.exit_code, 1) << ran.text;
  const auto json = nlohmann::json::parse(ran.text.substr(ran.text.find('{')));
  EXPECT_THAT(json["groups"][0]["suspects"].dump(), HasSubstr("P1 setting too high"));
  EXPECT_FALSE(json["groups"][0]["is_sound"]);
  EXPECT_TRUE(json["seen"][1]["out_of_band"]);
}

TEST_F(Diagnose, says_that_nothing_explains_readings_that_do_not_go_together) {
  const Ran ran = of(std::string(head) +
                     "G1,hold,205 bar\nG2,hold,40 bar\nG1,let off,150 bar\nC1.position,press,20 mm\n" +
                     "G2,back,190 bar\nC1.position,back,60 mm\nC1.time,press,2 s\n");
  EXPECT_THAT(ran.text, HasSubstr("None of the single faults looked for explains these readings"));
}

TEST_F(Diagnose, refuses_readings_that_cannot_be) {
  const Ran ran = of(std::string(head) + "G9,hold,205 bar\nG1,hold,205 mm\n");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.text, HasSubstr("nothing on this machine is read at \"G9\""));
  EXPECT_THAT(ran.text, HasSubstr("expected a pressure"));
}

TEST_F(Diagnose, holds_a_moment_of_its_own_in_readings_and_baseline) {
  const ScratchFile baseline{"day.csv", "at,step,when,value\nG1,hold,1.3 s,205 bar\nG1,hold,2.3 s,205 bar\n"};
  const Ran ran = of("at,step,when,value\nG1,hold,1.7 s,205 bar\n", "--baseline " + baseline.path());
  EXPECT_EQ(ran.exit_code, 0) << ran.text;
  EXPECT_THAT(ran.text, HasSubstr("1 reading, 2 of commissioning"));
}

}  // namespace
}  // namespace poise
