// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What faults do to the drilling stand, whose circuit is in jobs/drilling-stand.toml.
#include <gtest/gtest.h>

#include <set>

#include "study/faulty_jobs.hpp"

namespace poise::study {
namespace {

using faulty_jobs::answer;
using faulty_jobs::breaks;
using faulty_jobs::fault;

class drilling_stand : public testing::Test {
 protected:
  static const Nominal& nominal() {
    static const Nominal once = nominal_of(faulty_jobs::example("drilling-stand"));
    return once;
  }
};

TEST_F(drilling_stand, holds_without_faults) { EXPECT_EQ(outcome(nominal().verdict), Outcome::held); }

TEST_F(drilling_stand, gives_its_faults_names_of_their_own_in_a_fixed_order) {
  std::set<std::string> names;
  const auto once = faults_of(nominal().job, &nominal().trace);
  const auto again = faults_of(nominal().job, &nominal().trace);
  ASSERT_EQ(once.size(), again.size());
  for (std::size_t i = 0; i < once.size(); ++i) {
    EXPECT_TRUE(names.insert(once[i].name).second) << once[i].name;
    EXPECT_EQ(once[i].name, again[i].name);
    EXPECT_FALSE(once[i].sentence.empty()) << once[i].name;
    EXPECT_FALSE(once[i].source.empty()) << once[i].name;
    EXPECT_FALSE(change_of(nominal().job, once[i]).empty()) << once[i].name;
  }
}

// The sequence valve lets the clamps come down at 60 % of 120 bar, before the rams have pressed the frame
// home.
TEST_F(drilling_stand, has_clamps_before_the_frame_is_seated_where_the_sequence_spring_is_relaxed) {
  const FaultAnswer found = answer(nominal(), "V2 spring relaxed");
  EXPECT_EQ(found.outcome, Outcome::broken);
  EXPECT_TRUE(breaks(found, "seated before any clamp moves"));
  EXPECT_EQ(found.severity, Severity::hurts);
  EXPECT_EQ(found.change, "setting 72.0 bar");
}

TEST_F(drilling_stand, keeps_its_order_with_a_spring_relaxed_by_3_percent) {
  EXPECT_EQ(answer(nominal(), "V2 spring relaxed", 0.0).outcome, Outcome::held);
}

// V1's tank line practically shut: nothing flows off, so the rams do not go out.
TEST_F(drilling_stand, does_not_work_with_its_tank_line_blocked) {
  const FaultAnswer found = answer(nominal(), "L3 blocked on its way to T1");
  EXPECT_EQ(found.outcome, Outcome::broken);
  EXPECT_TRUE(breaks(found, "clamped in time"));
  EXPECT_NE(found.shown.by, Shown::By::nothing);
}

// Sequence and reducing valve drain by one line: where it is shut the spring chambers fill.
TEST_F(drilling_stand, names_the_drain_line_by_its_ports) {
  const FaultAnswer found = answer(nominal(), "line V2.Y, V4.T blocked on its way to T1");
  EXPECT_NE(found.outcome, Outcome::not_proven);
}

// A worn pump is nearly right without load and still gets to the relief valve's pressure: the stand's
// promises leave it the time. Of a slow one the motions tell: where the needles stand still they stand right.
TEST_F(drilling_stand, hides_a_worn_pump_and_shows_a_slow_one) {
  const FaultAnswer worn = answer(nominal(), "P1 pump is worn");
  EXPECT_EQ(worn.outcome, Outcome::held);
  EXPECT_EQ(worn.shown.by, Shown::By::nothing) << worn.shown.text;
  const FaultAnswer slow = answer(nominal(), "P1 flow is low");
  EXPECT_EQ(slow.outcome, Outcome::held);
  EXPECT_EQ(slow.shown.by, Shown::By::motion) << slow.shown.text;
}

// Nothing limits the pressure any more, so the parts see more than their ratings; past half of one is a
// burst.
TEST_F(drilling_stand, is_damaged_by_a_relief_valve_stuck_shut) {
  const FaultAnswer found = answer(nominal(), "V3 stuck shut");
  EXPECT_EQ(found.outcome, Outcome::broken);
  EXPECT_LE(found.severity, Severity::damages);
}

TEST_F(drilling_stand, shows_a_gauge_that_is_stuck_by_that_gauge_alone) {
  const FaultAnswer found = answer(nominal(), "G1 stuck");
  EXPECT_EQ(found.outcome, Outcome::held);
  EXPECT_EQ(found.severity, Severity::nothing_breaks);
  EXPECT_EQ(found.shown.by, Shown::By::gauge);
  EXPECT_TRUE(found.shown.text.starts_with("G1 ")) << found.shown.text;
  EXPECT_NE(found.shown.text.find("0 bar instead of"), std::string::npos) << found.shown.text;
}

TEST_F(drilling_stand, stands_pressed_after_a_release_that_was_forgotten) {
  const FaultAnswer found = answer(nominal(), "V1 = b forgotten in \"release\"");
  EXPECT_TRUE(breaks(found, "rams come home"));
  EXPECT_FALSE(found.left_pressed.empty());
}

TEST_F(drilling_stand, does_not_clamp_where_power_fails_while_clamping) {
  const FaultAnswer found = answer(nominal(), "power fails in \"clamp\"");
  EXPECT_EQ(found.outcome, Outcome::broken);
}

// A trace with a step cut in two has the steps of the job again.
TEST_F(drilling_stand, has_its_own_steps_where_the_pump_stops_in_the_middle_of_one) {
  const FaultPlace place = fault(nominal(), "P1 stops in \"clamp\"");
  EXPECT_NEAR(place.time, 2.0, 1e-9);
  const auto faulty = with_fault(nominal().job, place, 1.0);
  ASSERT_TRUE(faulty);
  EXPECT_EQ(faulty->steps.size(), nominal().job.steps.size() + 1);
  const FaultyRun run = run_faulty(nominal(), *faulty, place.step);
  ASSERT_EQ(run.trace.steps.size(), nominal().trace.steps.size());
  for (std::size_t i = 0; i < run.trace.steps.size(); ++i)
    EXPECT_EQ(run.trace.steps[i].name, nominal().trace.steps[i].name);
}

// Two faults that each hold, the sequence valve a little low and the oil a little cold, are one job.
TEST_F(drilling_stand, takes_two_faults_at_once) {
  const std::vector places{fault(nominal(), "V2 spring relaxed"), fault(nominal(), "oil too cold")};
  const FaultCase done = case_of(nominal(), places, {0, 1, 0.0, 1.0});
  EXPECT_NE(done.answer.outcome, Outcome::not_proven);
  EXPECT_EQ(done.answer.change, "setting 116 bar, with 20.0 degC");
}

}  // namespace
}  // namespace poise::study
