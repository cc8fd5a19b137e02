// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Charts as they are asked for at the terminal.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/run_program.hpp"

namespace poise {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

constexpr int held = 0, cannot = 2;
const std::string stand = "chart jobs/drilling-stand.toml ";

TEST(chart, of_each_kind_is_written_and_its_file_named) {
  for (const char* show : {"--show cycle", "--show motion", "--show way --at clamp",
                           "--show way --at '0.9 s'", "--show valve --part V3"}) {
    const ScratchFile file("chart.svg", "");
    const Ran ran = run_program(stand + show + " -o " + file.path());
    EXPECT_EQ(ran.exit_code, held) << ran.text;
    EXPECT_EQ(ran.text, file.path() + "\n");
    const std::string svg = contents(file.path());
    EXPECT_THAT(svg, HasSubstr("<svg"));
    EXPECT_THAT(svg, HasSubstr("Drilling stand for bogie frames")) << show;
    EXPECT_LT(svg.size(), 300'000U) << show;
  }
}

TEST(chart, for_cad_is_a_dxf) {
  const ScratchFile file("chart.dxf", "");
  const Ran ran = run_program(stand + "-o " + file.path());
  EXPECT_EQ(ran.exit_code, held) << ran.text;
  EXPECT_THAT(contents(file.path()), HasSubstr("AC1009"));
}

TEST(chart, names_the_nearest_signal_part_and_step) {
  EXPECT_THAT(run_program(stand + "--signals P1.P.presure").text,
              HasSubstr("there is no signal \"P1.P.presure\"; did you mean \"P1.P.pressure\"?"));
  EXPECT_THAT(run_program(stand + "--show valve --part R1").text,
              HasSubstr("\"R1\" is no part with a curve"));
  EXPECT_THAT(run_program(stand + "--show valve").text, HasSubstr("--show valve needs --part"));
  EXPECT_THAT(run_program(stand + "--show way --part V1").text, HasSubstr("\"V1\" is no actuator"));
  EXPECT_THAT(run_program(stand + "--show way --at clmp").text, HasSubstr("did you mean \"clamp\"?"));
  EXPECT_THAT(run_program(stand + "--at clamp").text, HasSubstr("--at goes with --show way"));
  for (const char* wrong : {"--signals P1.P.presure", "--show valve", "--show way --at clmp", "--show curve"})
    EXPECT_EQ(run_program(stand + wrong).exit_code, cannot) << wrong;
}

TEST(chart, says_where_it_cannot_write_and_where_the_run_did_not_get_to) {
  const Ran nowhere = run_program(stand + "-o /nowhere/chart.svg");
  EXPECT_EQ(nowhere.exit_code, cannot);
  EXPECT_THAT(nowhere.text, StartsWith("/nowhere/chart.svg cannot be written"));
  const ScratchFile file("chart.svg", "");
  const Ran late = run_program(stand + "--show way --at '99 s' -o " + file.path());
  EXPECT_EQ(late.exit_code, cannot);
  EXPECT_THAT(late.text, HasSubstr("the run did not get there: the cycle ends at 10.0 s"));
}

}  // namespace
}  // namespace poise
