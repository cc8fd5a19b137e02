// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The size that is found against running every size, also those that bounds leave out.
#include <gtest/gtest.h>

#include <algorithm>
#include <ostream>

#include "parts/series.hpp"
#include "search/open_jobs.hpp"

namespace poise {
namespace {

constexpr double enough = 0.1;

/// A job that leaves one size open, and the unit in which people read it.
struct Sized {
  const char* job;
  double unit;
};
void PrintTo(const Sized& sized, std::ostream* out) { *out << sized.job; }

const Sized sized[] = {
    {"press-bore", 1.0},     {"us-bore", 1.0},       {"rod-bows-not", 1.0},
    {"stroke", 1.0},         {"hose-bore", 1.0},     {"pump-flow", si::litre_per_minute},
    {"gas-volume", si::cm3}, {"hand-pump", si::cm3},
};

/// The smallest share of room with a value in place of the open one; below zero where something breaks, and
/// where the value does not go with the others.
double room(const Job& job, double value) {
  Job filled = job;
  const Sought& sought = job.sought.front();
  PlannedPart& part = filled.plan.parts[sought.part];
  part.values.set(sought.parameter, value);
  if (!part.kind->check(part.values).empty()) return -1.0;
  const Verdict verdict = open_jobs::proven(filled);
  if (!verdict.holds()) return -1.0;
  double least = 1.0;
  for (const Finding& finding : verdict.findings) least = std::min(least, finding.share.value_or(1.0));
  return least;
}

class every_size : public testing::TestWithParam<Sized> {};

TEST_P(every_size, has_none_that_is_smaller_and_enough) {
  const std::string text = open_jobs::text_of(std::string("known/") + GetParam().job);
  const Job job = open_jobs::job_of(text);
  const search::Found found = search::find(text, job, {});
  SCOPED_TRACE(open_jobs::told(found));
  const double best = found.values.front().value;
  const Sought& sought = job.sought.front();
  const Series series = job.plan.parts[sought.part].kind->parameters[sought.parameter].series;
  const bool inches = job.world[Quantity::length] == "in";
  constexpr double far = 4.0;
  double smallest = 0.0;
  for (const double size : sizes(series, inches, best / far, best * far, GetParam().unit)) {
    if (room(job, size) < enough) continue;
    smallest = size;
    break;
  }
  EXPECT_NEAR(best, smallest, 1e-9 * smallest);
}

INSTANTIATE_TEST_SUITE_P(jobs, every_size, testing::ValuesIn(sized), [](const auto& entry) {
  std::string name = entry.param.job;
  std::ranges::replace(name, '-', '_');
  return name;
});

TEST(every_word, but_the_one_that_is_found_breaks_something) {
  const std::string text = open_jobs::text_of("known/centre");
  const Job job = open_jobs::job_of(text);
  const search::Found found = search::find(text, job, {});
  const Sought& sought = job.sought.front();
  const auto words = job.plan.parts[sought.part].kind->parameters[sought.parameter].words;
  for (std::size_t word = 0; word < words.size(); ++word) {
    const double place = static_cast<double>(word);
    EXPECT_EQ(room(job, place) >= 0.0, place == found.values.front().value) << words[word];
  }
}

}  // namespace
}  // namespace poise
