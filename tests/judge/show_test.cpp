// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/show.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "judge/page.hpp"
#include "judge/scene.hpp"

namespace poise {
namespace {

using scene::Fixture;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;
constexpr double bar = si::bar, kN = si::kN;

Fixture clamping(double support_pressure) {
  Fixture f;
  f.times({0, 2, 6});
  f.step("raise supports", 0, 2, {f.above("R1.pressure", 50 * bar)}, 5.0);
  f.step("clamp", 2, 6);
  f.column("R1.pressure", {0, support_pressure, support_pressure});
  f.column("K1.clamp_force", {0, 0, 4 * kN});
  f.require("supports are firm before the clamp comes down",
            Order{{f.above("R1.pressure", 100 * bar)}, {f.above("K1.clamp_force", 0.2 * kN)}});
  f.require("", Never{f.signal("R1.pressure"), true, 250 * bar});
  f.rate("R1", 350 * bar);
  f.trace.books = {.mass_at_start = 1.0, .mass_residual = 1e-9, .shaft = 1000.0, .flow_heat = 999.99};
  return f;
}

std::string shown(Fixture& f, bool colour = false) { return show(f.verdict(), f.job, colour); }

TEST(Shown, a_held_verdict_says_so_in_its_first_line) {
  Fixture f = clamping(120 * bar);
  EXPECT_THAT(shown(f), StartsWith("Frame boring fixture: HELD, all 4 hold\n"));
}

TEST(Shown, a_broken_verdict_begins_with_what_broke_by_how_much_where_and_when) {
  Fixture f = clamping(61.2 * bar);
  EXPECT_THAT(
      shown(f),
      StartsWith(
          "Frame boring fixture: BROKEN, 1 of 4 does not hold\n"
          "\n"
          "                                                              margin\n"
          "BROKEN   supports are firm before the clamp comes down     -38.8 bar   -38.8 %\n"
          "         R1.pressure above 100 bar before K1.clamp_force above 0.2 kN · at 2.20 s, when\n"
          "         K1.clamp_force passes 0.2 kN, R1.pressure is 61.2 bar (needs 100 bar) · R1 · 2.20 s in\n"
          "         \"clamp\"\n"
          "held     "));
}

TEST(Shown, steps_cautions_books_and_the_notice_follow) {
  Fixture f = clamping(120 * bar);
  const std::string text = shown(f);
  EXPECT_THAT(text, HasSubstr("steps                         from         to     lasted\n"
                              "         raise supports        0 s     2.00 s     2.00 s\n"
                              "         clamp              2.00 s     6.00 s     4.00 s\n"));
  EXPECT_THAT(text, HasSubstr("mind     No rating given, so not checked: K1, C1, C2, C3.\n"));
  EXPECT_THAT(text,
              HasSubstr("books    oil 1.0e-09 of what was drawn and held, energy 1.0e-05 of what was put in: "
                        "they close\n"));
  EXPECT_THAT(text, HasSubstr("Local codes and a licensed person decide."));
  EXPECT_THAT(text, HasSubstr("Keep clear of held loads."));
}

TEST(Shown, open_books_are_said_before_anything_else) {
  Fixture f = clamping(61.2 * bar);
  f.trace.books.mass_residual = 0.01;
  EXPECT_THAT(shown(f),
              StartsWith("Frame boring fixture: NOT PROVEN, the books of oil and energy do not close\n"));
}

TEST(Shown, an_early_end_is_told_and_what_was_not_seen_is_not_called_broken) {
  Fixture f = clamping(120 * bar);
  f.halt("stopped by hand");
  const std::string text = shown(f);
  EXPECT_THAT(text, StartsWith("Frame boring fixture: NOT PROVEN, the run ended early\n"
                               "The run ended at 6.00 s: stopped by hand\n"));
  EXPECT_THAT(text, HasSubstr("NOT SEEN every step comes to its end"));
  EXPECT_THAT(text, HasSubstr("   not finished\n"));
  EXPECT_THAT(text, Not(HasSubstr("BROKEN")));
}

TEST(Shown, in_the_units_of_the_job) {
  Fixture f = clamping(61.2 * bar);
  f.job.world = units::us();
  const std::string text = shown(f);
  EXPECT_THAT(text, HasSubstr("-563 psi"));  // 38.8e5 / 6894.757
  EXPECT_THAT(text, Not(HasSubstr(" bar")));
}

TEST(Shown, without_colour_there_is_no_terminal_code_and_with_it_the_words_are_the_same) {
  Fixture f = clamping(61.2 * bar);
  const std::string plain = shown(f), coloured = shown(f, true);
  EXPECT_EQ(plain.find('\x1b'), std::string::npos);
  EXPECT_NE(coloured.find('\x1b'), std::string::npos);
  std::string stripped;
  for (std::size_t i = 0; i < coloured.size(); ++i) {
    if (coloured[i] == '\x1b') {
      i = coloured.find('m', i);
    } else {
      stripped += coloured[i];
    }
  }
  EXPECT_EQ(stripped, plain);
}

TEST(Shown, no_line_is_wider_than_a_hundred_columns_however_long_the_names) {
  Fixture f = clamping(61.2 * bar);
  f.job.title =
      "Frame boring fixture with three cylinders, a support and a clamp for the frames of bogies, second "
      "trial";
  f.job.requirements[0].name =
      "all of the supports under the frame are firm and locked – groß, größer – before any of the clamps "
      "comes down";
  for (StepSpan& span : f.trace.steps)
    span.name += " while the operator stands clear of the frame and of its lifting gear, always";
  for (Step& step : f.job.steps) step.name = f.trace.steps[&step - f.job.steps.data()].name;
  std::istringstream lines(shown(f));
  for (std::string line; std::getline(lines, line);) EXPECT_LE(columns(line), 100U) << line;
}

TEST(Page, a_character_of_several_bytes_takes_one_column) {
  EXPECT_EQ(columns("größer –"), 8U);
  EXPECT_EQ(left("ü", 3), "ü  ");
  EXPECT_EQ(right("ü", 3), "  ü");
  EXPECT_EQ(right("wide", 3), "wide");
}

TEST(Page, wrapped_lines_start_at_the_indent_and_a_long_word_stays_whole) {
  EXPECT_EQ(wrapped("one two three", 9, 2), "one two\n  three");
  EXPECT_EQ(wrapped("a exceptionally b", 6, 0), "a\nexceptionally\nb");
}

}  // namespace
}  // namespace poise
