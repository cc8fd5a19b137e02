// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Rules on runs that ended early: they look at less, and do not stumble.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "circuit/circuit.hpp"
#include "job/job.hpp"
#include "rules/all.hpp"
#include "rules/people.hpp"
#include "solve/run.hpp"

namespace poise::rules {
namespace {

namespace fs = std::filesystem;

struct Ran {
  Job job;
  Trace trace;
};

/// Every job of the house that can be read, run once.
const std::vector<Ran>& all_jobs() {
  static const std::vector<Ran> all = [] {
    std::vector<Ran> jobs;
    for (const char* folder : {"jobs", "tests/drawings", "tests/independent", "tests/rules/jobs"}) {
      for (const auto& entry : fs::directory_iterator(fs::path(POISE_SOURCE_DIR) / folder)) {
        if (entry.path().extension() != ".toml") continue;
        auto read = read_job_file(entry.path());
        if (!std::holds_alternative<Job>(read)) continue;
        Job job = std::get<Job>(std::move(read));
        if (job.plan.parts.size() > 30) continue;  // the large ones have no other parts
        solve::RunOptions options{.glanced_at = watched(job.plan), .controls = job.controls};
        Trace trace = solve::run(build(job.plan), job.steps, {}, options);
        jobs.push_back({std::move(job), std::move(trace)});
      }
    }
    return jobs;
  }();
  return all;
}

/// A run as it would be had it ended at one of its moments.
Trace cut(const Trace& whole, std::size_t rows) {
  Trace less = whole;
  less.glances.time.resize(rows);
  for (auto& column : less.glances.values) column.resize(rows);
  return less;
}

RC_GTEST_PROP(rules, do_not_stumble_over_what_a_run_does_not_show, ()) {
  const auto& [job, whole] = *rc::gen::elementOf(all_jobs());
  const auto rows = *rc::gen::inRange<std::size_t>(1, whole.glances.time.size() + 1);
  const Trace trace = cut(whole, rows);
  const Sight sight(job.plan, job.steps, job.controls, job.world, &trace);
  for (const Breach& breach : breaches(sight)) {
    RC_ASSERT(!breach.found.sentence.empty());
    RC_ASSERT(!breach.found.remedy.empty());
    RC_ASSERT(breach.found.part < static_cast<int>(job.plan.parts.size()));
  }
  for (const std::string& said : for_people(sight)) RC_ASSERT(!said.empty());
}

TEST(rules, that_need_a_run_are_silent_where_only_some_signals_were_looked_at) {
  const auto& [job, whole] = all_jobs().front();
  Trace some = whole;
  for (auto* list : {&some.glances.highest, &some.glances.lowest}) list->pop_back();
  some.glances.signals.pop_back();
  some.glances.values.pop_back();
  const auto without = breaches(Sight(job.plan, job.steps, job.controls, job.world));
  EXPECT_EQ(breaches(Sight(job.plan, job.steps, job.controls, job.world, &some)).size(), without.size());
}

TEST(rules, say_numbers_and_never_that_there_is_no_value) {
  for (const auto& [job, trace] : all_jobs()) {
    for (const Breach& breach : breaches(Sight(job.plan, job.steps, job.controls, job.world, &trace))) {
      for (const char* bad : {"no value", "nan", "inf ", "inf,", "-0 "})
        EXPECT_EQ((breach.found.sentence + breach.found.remedy + ' ').find(bad), std::string::npos)
            << job.title << ": " << breach.rule->name << ": " << breach.found.sentence << " | "
            << breach.found.remedy;
    }
  }
}

}  // namespace
}  // namespace poise::rules
