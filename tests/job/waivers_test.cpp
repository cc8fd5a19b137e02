// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/press_job.hpp"

namespace poise {
namespace {

using reading::complaints_of;
using reading::good;
using reading::job_of;

std::string with_waiver(std::string_view lines) {
  return std::string(good) + "[[waive]]\n" + std::string(lines);
}

TEST(Waivers, name_a_rule_a_reason_and_the_parts_that_they_are_for) {
  const Job job =
      job_of(with_waiver("rule = \"relief at every pump\"\npart = [\"P1\"]\n"
                         "reason = \"The pump stalls at 200 bar, tried on the stand\"\n"));
  ASSERT_EQ(job.waivers.size(), 1u);
  EXPECT_EQ(job.waivers[0].rule, "relief at every pump");
  EXPECT_EQ(job.waivers[0].parts, std::vector<std::string>{"P1"});
  EXPECT_EQ(job.waivers[0].reason, "The pump stalls at 200 bar, tried on the stand");
}

TEST(Waivers, without_a_part_are_for_every_place) {
  const Job job =
      job_of(with_waiver("rule = \"relief at every pump\"\nreason = \"The pump stalls at 200 bar\"\n"));
  EXPECT_TRUE(job.waivers.at(0).parts.empty());
}

TEST(Waivers, without_a_reason_that_anyone_could_judge_are_refused) {
  EXPECT_NE(complaints_of(with_waiver("rule = \"relief at every pump\"\n"))
                .find("needs reason, a sentence that says why"),
            std::string::npos);
  for (const char* reason : {"", "ok", "see above", "………………", "ääääää"}) {
    const std::string said = complaints_of(
        with_waiver("rule = \"relief at every pump\"\nreason = \"" + std::string(reason) + "\"\n"));
    EXPECT_NE(said.find("is no reason that anyone could judge later"), std::string::npos)
        << reason << ": " << said;
  }
}

TEST(Waivers, of_a_rule_that_there_is_not_are_refused_with_the_nearest_name) {
  const std::string said =
      complaints_of(with_waiver("rule = \"relief at evry pump\"\nreason = \"The pump stalls at 200 bar\"\n"));
  EXPECT_NE(said.find("there is no rule \"relief at evry pump\"; did you mean \"relief at every pump\"?"),
            std::string::npos)
      << said;
}

TEST(Waivers, for_a_part_that_there_is_not_are_refused) {
  const std::string said = complaints_of(with_waiver(
      "rule = \"relief at every pump\"\npart = \"P9\"\nreason = \"The pump stalls at 200 bar\"\n"));
  EXPECT_NE(said.find("there is no part \"P9\""), std::string::npos) << said;
}

}  // namespace
}  // namespace poise
