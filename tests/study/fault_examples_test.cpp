// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Faults of every example job: each case ends in a verdict, or says why it has none.
#include <gtest/gtest.h>

#include "study/fault_table.hpp"
#include "study/faulty_jobs.hpp"

namespace poise::study {
namespace {

/// Every so many faults are run, each job beginning elsewhere: all of them take too long, most of all where
/// memory is watched.
#ifdef __SANITIZE_ADDRESS__
constexpr std::size_t every = 41;
#else
constexpr std::size_t every = 5;
#endif

class faults_of_example : public testing::TestWithParam<const char*> {};

TEST_P(faults_of_example, end_in_a_verdict_or_say_why_not) {
  const Nominal nominal = nominal_of(faulty_jobs::example(GetParam()));
  const auto places = faults_of(nominal.job, &nominal.trace);
  ASSERT_GT(places.size(), every);
  std::size_t not_proven = 0, cases = 0;
  for (std::size_t i = std::string(GetParam()).size() % every; i < places.size(); i += every) {
    for (const double t : {0.0, 1.0}) {
      if (places[i].one_size && t == 0.0) continue;
      SCOPED_TRACE(places[i].name + (t == 0.0 ? ", slight" : ", grave"));
      const FaultCase done = case_of(nominal, places[i], t);
      ++cases;
      if (done.answer.outcome == Outcome::not_proven) {
        ++not_proven;
        EXPECT_TRUE(!done.answer.ended.empty() || !done.verdict.books_close);
      } else {
        EXPECT_TRUE(done.verdict.books_close);
      }
      EXPECT_EQ(done.answer.severity == Severity::not_proven, done.answer.outcome == Outcome::not_proven);
      EXPECT_FALSE(done.answer.change.empty());
      const auto back = answer_from(row_of(static_cast<long>(i), nominal, done).detail);
      ASSERT_TRUE(back);
      EXPECT_EQ(back->breaks.size(), done.answer.breaks.size());
    }
  }
  EXPECT_LE(not_proven * 20, cases) << "more than one in twenty could not be followed";
}

INSTANTIATE_TEST_SUITE_P(jobs, faults_of_example,
                         testing::Values("drilling-stand", "axle-box-lift", "drilling-stand-sequence-too-low",
                                         "axle-box-lift-needle-too-far-open"),
                         [](const auto& one) {
                           std::string name = one.param;
                           std::ranges::replace(name, '-', '_');
                           return name;
                         });

}  // namespace
}  // namespace poise::study
