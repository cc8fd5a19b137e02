// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Made-up jobs that once broke something, as small as they still do it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "circuit/circuit.hpp"
#include "job/job.hpp"
#include "judge/verdict.hpp"
#include "made_up/answer.hpp"
#include "solve/run.hpp"

namespace poise::made_up {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr long patience = 60'000;

/// Two rams rod to rod between shut chambers, the first out by some way, the second with a stroke of 5 mm.
std::string rod_to_rod(const std::string& start, const std::string& first_step = "") {
  return R"(plugged = ["C1.A", "C1.B", "C2.A", "C2.B"]

[parts.C1]
kind = "double_acting_cylinder"
bore = "40 mm"
rod = "20 mm"
stroke = "100 mm"
start_position = ")" +
         start + R"("

[parts.C2]
kind = "double_acting_cylinder"
bore = "100 mm"
rod = "20 mm"
stroke = "5 mm"

[[lines]]
from = "C1.rod"
to = "C2.rod"
)" + first_step +
         R"(
[[steps]]
name = "stand"
lasts = "1 s"
)";
}

TEST(shrunken_jobs, whose_joined_rods_start_beyond_the_stroke_of_one_are_refused) {
  EXPECT_THAT(answer_to(rod_to_rod("4 mm"), Look::usual, patience).complaints, IsEmpty());
  const Answer beyond = answer_to(rod_to_rod("60 mm"), Look::usual, patience);
  EXPECT_THAT(beyond.complaints, Contains(HasSubstr("which lies beyond the stroke of C2")));
  EXPECT_THAT(beyond.wrong, IsEmpty());
}

TEST(shrunken_jobs, whose_rods_are_moved_beyond_a_stroke_after_reading_end_in_a_sentence) {
  const Job job = std::get<Job>(read_job(rod_to_rod("4 mm"), "made-up.toml"));
  Plan plan = job.plan;
  plan.parts[0].values.set(*find_parameter(plan.parts[0].kind->parameters, "start_position"), 0.06);
  const Trace trace = solve::run(build(plan), job.steps, signals_needed(job));
  ASSERT_TRUE(trace.halt);
  EXPECT_THAT(trace.halt->sentence, HasSubstr("no room for oil at C2.B where the rods start"));
  EXPECT_FALSE(judge(job, trace).holds());
}

TEST(shrunken_jobs, with_a_spring_on_a_nut_and_no_mass_are_refused) {
  const Answer answer = answer_to(R"([parts.S1]
kind = "spring"
rate = "10 N/mm"

[parts.U1]
kind = "lock_nut"

[[lines]]
from = "S1.rod"
to = "U1.rod"

[[steps]]
name = "stand"
lasts = "1 s"
)",
                                  Look::usual, patience);
  EXPECT_THAT(answer.complaints, Contains(HasSubstr("joined to nothing that has a mass")));
  EXPECT_THAT(answer.wrong, IsEmpty());
}

/// A mass on a column of shut-in oil, without any friction: once pushed it rings on and on.
const std::string ringing = R"(plugged = ["C1.A"]

[parts.C1]
kind = "single_acting_cylinder"
bore = "40 mm"
stroke = "100 mm"
start_position = "50 mm"
friction = "0 N"
seal_friction = "0 %"
damping = "0 N s/m"

[parts.M1]
kind = "mass"
mass = "500 kg"

[parts.F1]
kind = "force"
force = "0 N"

[[lines]]
from = "C1.rod"
to = ["M1.rod", "F1.rod"]

[[steps]]
name = "ring"
set = { F1 = "20 kN" }
over = "0 s"
lasts = "24 h"
)";

TEST(shrunken_jobs, that_ring_for_a_day_are_given_up_in_a_sentence) {
  const Answer answer = answer_to(ringing, Look::closely, 2000);
  EXPECT_THAT(answer.halt, HasSubstr("given up after 2001 steps"));
  EXPECT_THAT(answer.wrong, IsEmpty());
}

TEST(shrunken_jobs, with_a_step_that_is_over_as_it_begins_are_judged_on_that_moment) {
  const std::string at_once = R"(
[[require]]
band = "C1.position"
low = "0 mm"
high = "100 mm"
during = "at once"

[[steps]]
name = "at once"
until = "C1.position > 1 mm"
)";
  const Job job = std::get<Job>(read_job(rod_to_rod("4 mm", at_once), "made-up.toml"));
  const Verdict verdict = judge(job, solve::run(build(job.plan), job.steps, signals_needed(job)));
  const auto found =
      std::ranges::find(verdict.findings, std::optional<std::size_t>(0), &Finding::requirement);
  EXPECT_TRUE(found->held) << found->found;
  EXPECT_EQ(found->time, 0.0);
}

/// A jack whose load falls: nothing throttles it.
TEST(shrunken_jobs, whose_load_falls_onto_the_stop_say_what_runs_into_its_end) {
  const Answer answer = answer_to(R"([parts.T1]
kind = "reservoir"
usable_oil = "20 L"

[parts.V1]
kind = "shut_off"
position = "shut"
rated_flow = "60 L/min"

[parts.C1]
kind = "single_acting_cylinder"
bore = "63 mm"
stroke = "400 mm"
start_position = "300 mm"

[parts.M1]
kind = "mass"
mass = "2200 kg"

[[lines]]
from = "C1.A"
to = "V1.A"

[[lines]]
from = "V1.B"
to = "T1.T"

[[lines]]
from = "C1.rod"
to = "M1.rod"

[[steps]]
name = "let off"
set = { V1 = "open" }
lasts = "5 s"
)",
                                  Look::usual, patience);
  EXPECT_THAT(answer.halt, HasSubstr("C1.rod runs into the end of its stroke"));
  EXPECT_THAT(answer.wrong, IsEmpty());
}

}  // namespace
}  // namespace poise::made_up
