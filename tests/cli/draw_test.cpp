// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The schematic as a practitioner asks for it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/run_program.hpp"

namespace poise {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

constexpr int held = 0, cannot = 2;

/// Draws a job into a file of this name in a folder of its own.
struct Drawn {
  Ran ran;
  std::string text;
};
Drawn draw(const std::string& arguments, const std::string& name = "plan.svg") {
  const ScratchFile file(name, "");
  Drawn drawn{run_program("draw " + arguments + " -o '" + file.path() + "'"), {}};
  drawn.text = contents(file.path());
  return drawn;
}

TEST(draw, writes_the_circuit_at_rest_with_codes_tags_and_data) {
  const Drawn drawn = draw("jobs/axle-box-lift.toml");
  EXPECT_EQ(drawn.ran.exit_code, held);
  EXPECT_THAT(drawn.ran.text, AllOf(HasSubstr("plan.svg: 16 parts on "), HasSubstr("module ")));
  EXPECT_THAT(drawn.text, StartsWith("<svg"));
  for (const char* said :
       {"Axle-box lift", "circuit at rest", ">H1.2<", ">P1<", ">140 bar<", ">at 7.50 L/min<"})
    EXPECT_THAT(drawn.text, HasSubstr(said));
  EXPECT_THAT(drawn.text, Not(HasSubstr("class=\"legend\"")));
}

TEST(draw, at_the_end_of_a_step_with_its_pressures) {
  const Drawn drawn = draw("jobs/axle-box-lift.toml --at down");
  EXPECT_EQ(drawn.ran.exit_code, held);
  EXPECT_THAT(drawn.text,
              AllOf(HasSubstr(" in step down"), HasSubstr("class=\"legend\""), HasSubstr("pressure, bar")));
}

TEST(draw, at_a_time_on_the_same_scale_as_at_the_ends_of_the_steps) {
  // The relief's 140 bar at the end of "down" set the scale of every moment.
  const Drawn drawn = draw("jobs/axle-box-lift.toml --at '0.5 s'");
  EXPECT_EQ(drawn.ran.exit_code, held);
  EXPECT_THAT(drawn.text, AllOf(HasSubstr("at 0.500 s in step "), HasSubstr(">150<")));
}

TEST(draw, as_dxf_too) {
  const Drawn drawn = draw("jobs/axle-box-lift.toml", "plan.DXF");
  EXPECT_EQ(drawn.ran.exit_code, held);
  EXPECT_THAT(drawn.text, AllOf(HasSubstr("AC1009"), HasSubstr("P1")));
}

TEST(draw, on_the_paper_that_is_asked_for) {
  const Drawn drawn = draw("jobs/axle-box-lift.toml --paper Letter");
  EXPECT_THAT(drawn.text, HasSubstr("width=\"279.4mm\" height=\"215.9mm\""));
  EXPECT_THAT(drawn.ran.text, HasSubstr(" on Letter"));
}

TEST(draw, into_the_current_folder_under_the_jobs_name_unless_told_otherwise) {
  const ScratchFile job("lift.toml", contents(POISE_SOURCE_DIR "/jobs/axle-box-lift.toml"));
  const std::filesystem::path folder = std::filesystem::path(job.path()).parent_path();
  EXPECT_THAT(run_program("draw lift.toml", folder).text, HasSubstr("lift.svg: "));
  EXPECT_THAT(contents(folder / "lift.svg"), StartsWith("<svg"));
  EXPECT_THAT(run_program("draw lift.toml --at '2.5 s'", folder).text, HasSubstr("lift-at-2.5-s.svg: "));
  EXPECT_THAT(contents(folder / "lift-at-2.5-s.svg"), StartsWith("<svg"));
}

TEST(draw, what_cannot_be_drawn_is_said_and_nothing_is_written) {
  struct Case {
    std::string arguments, name, says;
  };
  const Case cases[] = {
      {"jobs/axle-box-lift.toml", "plan.pdf", "a drawing is written as .svg or as .dxf"},
      {"jobs/axle-box-lift.toml", "plan", "a drawing is written as .svg or as .dxf"},
      {"jobs/axle-box-lift.toml --paper A5", "plan.svg",
       "--paper: found \"A5\"; expected \"A4\", \"A3\" or \"Letter\""},
      {"jobs/axle-box-lift.toml --at dwn", "plan.svg", "did you mean \"down\"?"},
      {"jobs/axle-box-lift.toml --at '900 s'", "plan.svg", "the run did not get there"},
      {"jobs/no-such-job.toml", "plan.svg", "no-such-job.toml"},
  };
  for (const Case& each : cases) {
    const Drawn drawn = draw(each.arguments, each.name);
    EXPECT_EQ(drawn.ran.exit_code, cannot) << each.arguments;
    EXPECT_THAT(drawn.ran.text, HasSubstr(each.says));
    EXPECT_EQ(drawn.text, "");
  }
}

TEST(draw, a_folder_that_is_not_there_is_said) {
  const Ran ran = run_program("draw jobs/axle-box-lift.toml -o /no/such/folder/plan.svg");
  EXPECT_EQ(ran.exit_code, cannot);
  EXPECT_THAT(
      ran.text,
      HasSubstr("/no/such/folder/plan.svg cannot be written: there is no folder /no/such/folder; make it"));
}

TEST(draw, no_codes_where_the_job_wants_none) {
  const ScratchFile job("lift.toml",
                        contents(POISE_SOURCE_DIR "/jobs/axle-box-lift.toml") +
                            "\n[drawing]\ncodes = \"off\"\npaper = \"A4\"\nauthor = \"workshop office\"\n");
  const Drawn drawn = draw("'" + job.path() + "'");
  EXPECT_EQ(drawn.ran.exit_code, held);
  EXPECT_THAT(drawn.text, AllOf(Not(HasSubstr(">H1.2<")), HasSubstr(">P1<"), HasSubstr("workshop office"),
                                HasSubstr("width=\"297mm\"")));
}

}  // namespace
}  // namespace poise
