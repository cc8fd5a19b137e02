// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A job proven in one call.
#include "prove/prove.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "circuit/circuit.hpp"
#include "solve/run.hpp"

namespace poise {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Job stand() { return std::get<Job>(read_job_file("jobs/drilling-stand.toml")); }

std::vector<double> margins(const Verdict& verdict) {
  std::vector<double> all;
  for (const Finding& finding : verdict.findings) all.push_back(finding.margin.value_or(0.0));
  return all;
}

TEST(prove, gives_the_verdict_on_a_run_of_the_signals_that_judging_needs) {
  const Job job = stand();
  const Trace trace = solve::run(build(job.plan), job.steps, signals_needed(job),
                                 {.glanced_at = signals_of_rules(job), .controls = job.controls});
  const Verdict expected = judge(job, trace), found = prove(job).verdict;
  EXPECT_TRUE(found.holds());
  EXPECT_EQ(margins(found), margins(expected));
  EXPECT_EQ(found.rules.size(), expected.rules.size());
}

TEST(prove, records_what_is_asked_for_ahead_of_what_it_needs_and_nothing_twice) {
  const Job job = stand();
  const std::vector<Signal> needed = signals_needed(job);
  ASSERT_FALSE(needed.empty());
  const Trace trace = prove(job, {.record = all_signals(job.plan)}).trace;
  ASSERT_EQ(trace.signals.size(), all_signals(job.plan).size());
  EXPECT_EQ(trace.signals.front().name, all_signals(job.plan).front().name);
}

TEST(prove, stops_when_it_is_told_to) {
  const Verdict verdict = prove(stand(), {.progress = [](double) { return false; }}).verdict;
  ASSERT_TRUE(verdict.halt);
  EXPECT_EQ(verdict.halt->why, Halt::Why::stopped);
  EXPECT_FALSE(verdict.holds());
}

}  // namespace
}  // namespace poise
