// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The starting points are whole jobs: each is proven as it stands, in both worlds of units.
#include <gtest/gtest.h>

#include <set>
#include <string>

#include "circuit/circuit.hpp"
#include "compose/change.hpp"
#include "judge/outcome.hpp"
#include "judge/show.hpp"
#include "solve/run.hpp"

namespace poise::compose {
namespace {

/// A starting point in one of the two worlds.
struct Begun {
  Start start;
  bool us = false;
  std::string text() const { return std::string(us ? start.us : start.metric); }
};

std::vector<Begun> whole_jobs() {
  std::vector<Begun> all;
  for (const Start& start : starts()) {
    if (start.name == "empty") continue;
    all.push_back({start, false});
    all.push_back({start, true});
  }
  return all;
}

Job read(const Begun& begun) {
  auto read = read_job(begun.text(), "start.toml");
  if (const auto* complaints = std::get_if<Complaints>(&read))
    throw std::runtime_error(complaints->text(begun.text()));
  return std::get<Job>(std::move(read));
}

class start : public testing::TestWithParam<Begun> {};

TEST_P(start, is_held_with_room_to_see) {
  const Job job = read(GetParam());
  const Verdict verdict =
      judge(job, solve::run(build(job.plan), job.steps, signals_needed(job), {.controls = job.controls}));
  EXPECT_EQ(outcome(verdict), Outcome::held) << show(verdict, job, false);
  EXPECT_TRUE(verdict.cautions.empty()) << verdict.cautions.front();
  for (const Finding& finding : verdict.findings) {
    ASSERT_TRUE(finding.share) << finding.name;
    EXPECT_GT(*finding.share, 0.03) << finding.name << ": " << finding.found;
  }
}

TEST_P(start, is_small_and_says_that_its_data_are_invented) {
  const Job job = read(GetParam());
  EXPECT_EQ(job.title, GetParam().start.title);
  EXPECT_NE(GetParam().text().find("ll data invented"), std::string::npos);
  EXPECT_LE(job.plan.parts.size(), 22);
  EXPECT_GE(job.requirements.size(), 4);
  EXPECT_LE(job.requirements.size(), 7);
}

TEST_P(start, speaks_in_its_own_units) {
  const Job job = read(GetParam());
  EXPECT_EQ(job.world.name, (GetParam().us ? units::us() : units::metric()).name);
  EXPECT_EQ(GetParam().text().find(GetParam().us ? " bar\"" : " psi\""), std::string::npos);
}

INSTANTIATE_TEST_SUITE_P(of_both_worlds, start, testing::ValuesIn(whole_jobs()), [](const auto& one) {
  std::string name(one.param.start.name);
  for (char& c : name) c = c == '-' ? '_' : c;
  return name + (one.param.us ? "_us" : "_metric");
});

/// What the job of a start answers with one value changed.
Outcome outcome_with(const Begun& begun, std::string_view tag, std::string_view parameter, double value) {
  Job job = read(begun);
  const auto part = std::ranges::find(job.plan.parts, tag, &PlannedPart::tag);
  part->values.set(*find_parameter(part->kind->parameters, parameter), value);
  return outcome(
      judge(job, solve::run(build(job.plan), job.steps, signals_needed(job), {.controls = job.controls})));
}

TEST(starts, the_order_of_the_sequenced_fixture_is_kept_by_its_sequence_valve) {
  const auto fixture = std::ranges::find(starts(), "sequenced-fixture", &Start::name);
  ASSERT_NE(fixture, starts().end());
  for (const bool us : {false, true})
    EXPECT_EQ(outcome_with({*fixture, us}, "V3", "setting", 60 * si::bar), Outcome::broken) << us;
}

TEST(starts, are_the_same_circuit_in_both_worlds) {
  for (const Start& one : starts()) {
    if (one.name == "empty") continue;
    const Job metric = read({one, false}), us = read({one, true});
    ASSERT_EQ(metric.plan.parts.size(), us.plan.parts.size()) << one.name;
    for (std::size_t p = 0; p < us.plan.parts.size(); ++p) {
      EXPECT_EQ(metric.plan.parts[p].tag, us.plan.parts[p].tag);
      EXPECT_EQ(metric.plan.parts[p].kind, us.plan.parts[p].kind);
    }
    ASSERT_EQ(metric.plan.joints.size(), us.plan.joints.size()) << one.name;
    for (std::size_t j = 0; j < us.plan.joints.size(); ++j) {
      EXPECT_EQ(metric.plan.joints[j].a, us.plan.joints[j].a);
      EXPECT_EQ(metric.plan.joints[j].b, us.plan.joints[j].b);
    }
  }
}

TEST(starts, begin_with_an_empty_job_that_lacks_parts_and_steps_only) {
  const Start& empty = starts().front();
  ASSERT_EQ(empty.name, "empty");
  for (std::string_view text : {empty.metric, empty.us}) {
    const auto read = read_job(text, "empty.toml");
    const auto* complaints = std::get_if<Complaints>(&read);
    ASSERT_NE(complaints, nullptr);
    EXPECT_EQ(complaints->list.size(), 2);
  }
}

TEST(starts, have_names_of_their_own) {
  std::set<std::string_view> names;
  for (const Start& one : starts()) {
    EXPECT_TRUE(names.insert(one.name).second);
    EXPECT_FALSE(one.sentence.empty());
    EXPECT_FALSE(one.metric.empty());
    EXPECT_FALSE(one.us.empty());
  }
}

}  // namespace
}  // namespace poise::compose
