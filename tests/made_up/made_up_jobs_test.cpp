// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Jobs that are made up by the thousand go the whole way and end in an answer. By default few of them do;
// POISE_MADE_UP_JOBS=2000 runs so many of each family, POISE_MADE_UP_JOB=17 that one alone and prints it, and
// POISE_MADE_UP_REPORT=file adds a line for each to a file.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <set>

#include "made_up/answer.hpp"

namespace poise::made_up {
namespace {

constexpr int usual_count = 60;
constexpr int slices = 5;            // cases of CTest, so that all cores have something to do
constexpr int close_look_every = 4;  // jobs
constexpr long patience = 100'000;   // steps; the longest sensible job takes a tenth of it

struct Family {
  const char* name;
  MadeUpJob (*make)(int number);
  bool sound;  ///< every job of it is read, and comes to its end or is stopped by the machine itself
};
constexpr Family sensible_family{"sensible", &sensible, true}, perverse_family{"perverse", &perverse, false};

int number_in(const char* variable, int otherwise) {
  const char* text = std::getenv(variable);
  return text ? std::atoi(text) : otherwise;
}

void report(const Family& family, int number, const Answer& answer) {
  const char* file = std::getenv("POISE_MADE_UP_REPORT");
  if (!file) return;
  std::string wrong;
  for (const std::string& sentence : answer.wrong) wrong += sentence + " | ";
  for (const std::string& sentence : answer.complaints) wrong += "complaint: " + sentence + " | ";
  std::ofstream(file, std::ios::app) << fmt::format(
      "{}\t{}\t{}\t{}\t{:.3f}\t{:.1e}\t{:.1e}\t{}\t{}\n", family.name, number, word(answer.ending),
      answer.steps, answer.cpu_seconds, answer.mass_share, answer.energy_share, answer.halt, wrong);
}

void expect_an_answer(const Family& family, int number) {
  const MadeUpJob job = family.make(number);
  const Look look = number % close_look_every == 0 ? Look::closely : Look::usual;
  const Answer answer = answer_to(job, look, patience);
  report(family, number, answer);
  for (const std::string& wrong : answer.wrong)
    ADD_FAILURE() << family.name << " " << number << ": " << wrong;
  if (!family.sound) return;
  for (const std::string& complaint : answer.complaints)
    ADD_FAILURE() << family.name << " " << number << " is refused: " << complaint;
  EXPECT_NE(answer.ending, Ending::books_open)
      << family.name << " " << number << ": mass " << answer.mass_share << ", energy " << answer.energy_share;
}

void expect_answers(const Family& family, int slice) {
  const int alone = number_in("POISE_MADE_UP_JOB", -1);
  const int count = number_in("POISE_MADE_UP_JOBS", usual_count);
  if (alone >= 0 && alone % slices != slice) GTEST_SKIP();
  if (alone >= 0) {
    std::fputs(family.make(alone).text().c_str(), stdout);
    return expect_an_answer(family, alone);
  }
  for (int number = slice; number < count; number += slices) expect_an_answer(family, number);
}

class sensible_jobs : public testing::TestWithParam<int> {};
class perverse_jobs : public testing::TestWithParam<int> {};

TEST_P(sensible_jobs, end_in_an_answer) { expect_answers(sensible_family, GetParam()); }
TEST_P(perverse_jobs, end_in_an_answer) { expect_answers(perverse_family, GetParam()); }

INSTANTIATE_TEST_SUITE_P(part, sensible_jobs, testing::Range(0, slices));
INSTANTIATE_TEST_SUITE_P(part, perverse_jobs, testing::Range(0, slices));

TEST(made_up_jobs, have_every_kind_of_part_in_both_families) {
  constexpr int all = 2000;
  for (const Family& family : {sensible_family, perverse_family}) {
    std::set<std::string_view> seen;
    for (int number = 0; number < all && seen.size() < all_kinds().size(); ++number) {
      for (const PlannedPart& part : family.make(number).plan.parts) seen.insert(part.kind->about.kind);
    }
    for (const Kind& kind : all_kinds())
      EXPECT_TRUE(seen.contains(kind.about.kind)) << family.name << " lacks " << kind.about.kind;
  }
}

// It cannot come to rest in its first positions: what it was last tried with there is no number.
TEST(made_up_jobs, that_do_not_come_to_rest_show_where_they_began) {
  expect_an_answer(perverse_family, 1273);
}

TEST(made_up_jobs, are_functions_of_their_number) {
  for (const Family& family : {sensible_family, perverse_family}) {
    EXPECT_EQ(family.make(7).text(), family.make(7).text());
    EXPECT_NE(family.make(7).text(), family.make(8).text());
  }
}

}  // namespace
}  // namespace poise::made_up
