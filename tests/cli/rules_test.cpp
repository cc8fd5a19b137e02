// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/run_program.hpp"

namespace poise {
namespace {

using testing::AllOf;
using testing::HasSubstr;

TEST(rules, are_listed_by_chapter_with_what_becomes_of_it) {
  const Ran ran = run_program("rules");
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_THAT(ran.text, AllOf(HasSubstr("Relief and unloading valves"),
                              HasSubstr("can hurt someone  relief at every pump")));
}

TEST(rules, one_is_explained_in_full) {
  const Ran ran = run_program("rules 'relief at every pump'");
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_THAT(ran.text, AllOf(HasSubstr("Every pump has a relief valve"), HasSubstr("→ Put a relief valve"),
                              HasSubstr("Source: "), HasSubstr("[[waive]]")));
}

TEST(rules, one_that_there_is_not_is_answered_with_the_nearest) {
  const Ran ran = run_program("rules 'relief at evry pump'");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.text, HasSubstr("did you mean \"relief at every pump\"?"));
}

TEST(rules, those_of_a_job_end_with_what_a_person_confirms) {
  const Ran ran = run_program("rules --job jobs/drilling-stand.toml");
  EXPECT_THAT(ran.text,
              AllOf(HasSubstr("Drilling stand for bogie frames:"),
                    HasSubstr("For a person to look at and confirm"), HasSubstr("☐ emergency stop")));
}

}  // namespace
}  // namespace poise
