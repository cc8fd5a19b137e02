// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/verdict.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "judge/outcome.hpp"
#include "judge/scene.hpp"

namespace poise {
namespace {

using scene::Fixture;
using testing::ElementsAre;
constexpr double bar = si::bar, kN = si::kN;
const std::string course = "every step comes to its end";

std::vector<std::string> names(const Verdict& verdict) {
  std::vector<std::string> all;
  for (const Finding& finding : verdict.findings) all.push_back(finding.name);
  return all;
}

/// "support" until R1 has 100 bar, at 2 s of at most 5; then "clamp", 2 s long. 120 bar at the end.
Fixture two_steps() {
  Fixture f;
  f.times({0, 2, 4});
  f.step("support", 0, 2, {f.above("R1.pressure", 100 * bar)}, 5.0);
  f.step("clamp", 2, 4);
  f.column("R1.pressure", {0, 100 * bar, 120 * bar});
  f.require("mild", Never{f.signal("R1.pressure"), true, 150 * bar});
  f.trace.books = {.mass_at_start = 1.0, .mass_residual = 1e-7, .shaft = 1000.0, .flow_heat = 999.5};
  return f;
}

/// The same, but R1 stops at 60 bar and "support" waits its 4 s in vain.
Fixture waiting_in_vain() {
  Fixture f;
  f.times({0, 2, 4});
  f.step("support", 0, 4, {f.above("R1.pressure", 100 * bar)});
  f.step_not_begun("clamp");
  f.column("R1.pressure", {0, 60 * bar, 60 * bar});
  f.halt("step \"support\" waited 4 s and its condition did not come true");
  return f;
}

TEST(Verdict, holds_when_all_held_the_run_came_to_its_end_and_the_books_close) {
  Fixture f = two_steps();
  EXPECT_TRUE(f.verdict().holds());
  EXPECT_EQ(outcome(f.verdict()), Outcome::held);
}

TEST(Verdict, a_requirement_with_no_margin_left_still_holds_and_one_below_does_not) {
  Fixture f = two_steps();
  f.require("edge", Never{f.signal("R1.pressure"), true, 120 * bar});
  EXPECT_TRUE(f.verdict().holds());
  f.require("tight", Never{f.signal("R1.pressure"), true, 119 * bar});
  EXPECT_FALSE(f.verdict().holds());
  EXPECT_EQ(outcome(f.verdict()), Outcome::broken);
}

TEST(Verdict, open_books_prove_nothing_not_even_a_failure) {
  Fixture f = two_steps();
  f.require("tight", Never{f.signal("R1.pressure"), true, 119 * bar});
  f.trace.books.mass_residual = 2e-6;  // of 1 kg; 1e-6 is allowed
  EXPECT_FALSE(f.verdict().books_close);
  EXPECT_EQ(outcome(f.verdict()), Outcome::not_proven);
  f.trace.books.mass_residual = 1e-6;
  EXPECT_TRUE(f.verdict().books_close);
  f.trace.books.flow_heat = 998.0;  // 2 J of 1000 J unaccounted; 1 J is allowed
  EXPECT_FALSE(f.verdict().books_close);
}

TEST(Verdict, the_worst_comes_first_broken_before_held_and_those_without_a_share_last) {
  Fixture f = two_steps();
  f.require("bad", Never{f.signal("R1.pressure"), true, 100 * bar});    // −20 %
  f.require("worse", Never{f.signal("R1.pressure"), true, 60 * bar});   // −100 %
  f.require("wide", Never{f.signal("R1.pressure"), true, 1200 * bar});  // 90 %
  f.require("unseen", Order{{f.above("R1.pressure", 50 * bar)}, {f.above("K1.clamp_force", kN)}});
  EXPECT_THAT(names(f.verdict()), ElementsAre("worse", "bad", "unseen", "mild", course, "wide"));
}

TEST(Verdict, the_steps_keep_what_is_left_of_the_shortest_wait) {
  Fixture f = two_steps();
  const Finding found = f.finding(course);
  EXPECT_TRUE(found.held);
  EXPECT_EQ(found.margin, 3.0);  // 2 of at most 5 s
  EXPECT_DOUBLE_EQ(*found.share, 0.6);
  EXPECT_EQ(found.step, "support");
  EXPECT_EQ(found.found, "2 steps in 4.00 s");
}

TEST(Verdict, a_condition_waited_for_in_vain_says_which_and_how_far_off_it_is) {
  Fixture f = waiting_in_vain();
  const Finding found = f.finding(course);
  EXPECT_FALSE(found.held);
  EXPECT_DOUBLE_EQ(*found.margin, -40 * bar);
  EXPECT_DOUBLE_EQ(*found.share, -0.4);
  EXPECT_EQ(found.time, 4.0);
  EXPECT_EQ(found.step, "support");
  EXPECT_EQ(found.part, "R1");
  EXPECT_EQ(found.found, "step \"support\" waited 4.00 s for R1.pressure above 100 bar, and it is 60.0 bar");
  EXPECT_EQ(outcome(f.verdict()), Outcome::broken);
}

TEST(Verdict, a_step_the_run_never_came_to_keeps_no_promise) {
  Fixture f = waiting_in_vain();
  f.require("in clamp", Never{f.signal("R1.pressure"), true, 150 * bar}, {"clamp"});
  const Finding found = f.finding("in clamp");
  EXPECT_FALSE(found.held);
  EXPECT_EQ(found.margin, std::nullopt);
  EXPECT_EQ(found.found, "not reached: the run ended in step \"support\"");
}

TEST(Verdict, what_held_only_until_a_halt_is_not_proven_but_told) {
  Fixture f = waiting_in_vain();
  f.require("mild", Never{f.signal("R1.pressure"), true, 150 * bar});
  const Finding found = f.finding("mild");
  EXPECT_FALSE(found.held);
  EXPECT_EQ(found.margin, std::nullopt);
  EXPECT_EQ(found.found,
            "not reached: the run ended in step \"support\" at 4.00 s; until then highest 60.0 bar");
  EXPECT_EQ(mark(found, f.verdict()), Mark::unseen);
}

TEST(Verdict, what_broke_before_a_halt_is_broken_with_its_margin) {
  Fixture f = waiting_in_vain();
  f.require("low", Never{f.signal("R1.pressure"), true, 50 * bar});
  f.require("both", Never{f.signal("R1.pressure"), true, 50 * bar}, {"support", "clamp"});
  EXPECT_DOUBLE_EQ(*f.finding("low").margin, -10 * bar);
  EXPECT_DOUBLE_EQ(*f.finding("both").margin, -10 * bar);
}

TEST(Verdict, a_moment_seen_before_a_halt_stays_seen) {
  Fixture f = waiting_in_vain();
  f.require("soon", Reached{f.above("R1.pressure", 30 * bar), 2.0});
  EXPECT_TRUE(f.finding("soon").held);
  EXPECT_EQ(f.finding("soon").margin, 1.0);
}

TEST(Verdict, a_moment_not_seen_is_broken_only_if_it_had_its_time_before_the_halt) {
  Fixture f = waiting_in_vain();
  f.require("had time", Reached{f.above("R1.pressure", 90 * bar), 3.0});
  f.require("had none", Reached{f.above("R1.pressure", 90 * bar), 30.0});
  EXPECT_DOUBLE_EQ(*f.finding("had time").margin, -30 * bar);
  EXPECT_EQ(f.finding("had none").margin, std::nullopt);
  EXPECT_FALSE(f.finding("had none").held);
}

TEST(Verdict, ratings_held_only_until_a_halt_are_not_proven) {
  Fixture f = waiting_in_vain();
  f.rate("R1", 250 * bar);
  const Finding found = f.finding("no part above its rated pressure");
  EXPECT_FALSE(found.held);
  EXPECT_EQ(found.margin, std::nullopt);
}

TEST(Verdict, a_run_that_was_stopped_while_waiting_breaks_nothing_and_proves_nothing) {
  Fixture f = two_steps();
  f.trace.steps.pop_back();
  f.times({0, 1});
  f.trace.steps.back().end = 1.0;
  f.column("R1.pressure", {0, 50 * bar});
  f.halt("stopped by hand at 1 s");
  EXPECT_FALSE(f.verdict().holds());
  EXPECT_EQ(outcome(f.verdict()), Outcome::not_proven);
  EXPECT_EQ(f.finding(course).found, "the run ended in step \"support\" at 1.00 s");
}

TEST(Verdict, a_run_without_a_single_row_proves_nothing) {
  Fixture f = two_steps();
  f.rate("R1", 250 * bar);
  f.trace = {.halt = Halt{Halt::Why::stuck, 0.0, "the circuit does not come to rest"}};
  const Verdict verdict = f.verdict();
  for (const Finding& finding : verdict.findings) EXPECT_FALSE(finding.held) << finding.name;
  EXPECT_EQ(outcome(verdict), Outcome::not_proven);
}

TEST(Verdict, a_job_without_requirements_says_so) {
  Fixture f = two_steps();
  f.job.requirements.clear();
  EXPECT_EQ(f.verdict().cautions.back(),
            "The job states no requirement, so only its steps and ratings are judged.");
}

// A pump that runs under [parts] already: the step that starts it waits for nothing, and the cycle proves
// less than it seems to.
TEST(Verdict, a_step_that_is_over_as_it_begins_is_told) {
  Fixture f;
  f.step("clamp", 0.0, 0.0, {f.above("K1.clamp_force", kN)}, 10.0);
  f.step("hold", 0.0, 5.0);
  f.step("drill", 5.0, 5.0, {f.above("K1.clamp_force", kN)}, 10.0);
  const std::vector<std::string> cautions = f.verdict().cautions;
  ASSERT_GE(cautions.size(), 2U);
  EXPECT_EQ(
      cautions[0],
      "Step \"clamp\" is over as it begins: what it waits for holds already. What stands under [parts] is so "
      "before the first step too; what a step is to start belongs into its \"set\".");
  EXPECT_EQ(cautions[1], "Step \"drill\" is over as it begins: what it waits for holds already.");
  EXPECT_THAT(cautions, testing::Not(testing::Contains(testing::HasSubstr("hold\" is over"))));
}

TEST(SignalsNeeded, each_once_from_requirements_steps_and_rated_ports) {
  Fixture f = two_steps();
  f.require("firm", Order{{f.above("R1.pressure", 100 * bar)}, {f.above("K1.clamp_force", kN)}});
  f.require("level", Level{{f.signal("C1.position"), f.signal("C2.position")}, 1e-3});
  f.rate("R1", 350 * bar);
  f.rate("C1", 350 * bar);
  std::vector<std::string> needed;
  for (const Signal& signal : signals_needed(f.job)) needed.push_back(signal.name);
  EXPECT_THAT(needed, ElementsAre("R1.pressure", "K1.clamp_force", "C1.position", "C2.position",
                                  "C1.A.pressure", "C1.B.pressure"));
}

}  // namespace
}  // namespace poise
