// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What is glanced at beside what is recorded.
#include <gtest/gtest.h>

#include <algorithm>

#include "support/workshop.hpp"

namespace poise {
namespace {

using workshop::Bench;

/// A pump that drives a cylinder to its end and then over its relief valve.
Bench dead_headed() {
  Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 5 * si::litre}});
  b.part("P1", "pump", {{"flow", 4 * si::litre_per_minute}, {"rated_pressure", 250 * si::bar}});
  b.part("V1", "relief", {{"setting", 150 * si::bar}, {"rated_flow", 10 * si::litre_per_minute}});
  b.part("C1", "single_acting_cylinder", {{"bore", 40 * si::mm}, {"stroke", 0.05}});
  b.join({"T1.T", "P1.S", "V1.T"});
  b.join({"P1.P", "V1.P", "C1.A"});
  b.step("out", 2.0, {{"P1", "running", 1.0}});
  return b;
}

struct Seen {
  Bench bench = dead_headed();
  Trace trace;
  std::vector<Signal> signals;

  Seen() {
    for (const char* name : {"P1.P.pressure", "P1.P.flow", "C1.A.pressure", "C1.position", "C1.force"})
      signals.push_back(bench.signal(name));
    trace = bench.run({"P1.P.pressure", "P1.P.flow", "C1.A.pressure", "C1.position", "C1.force"},
                      {.glanced_at = signals});
  }
};

TEST(Onlooker, sees_what_is_recorded_at_the_same_moments) {
  const Seen seen;
  const Glances& glances = seen.trace.glances;
  ASSERT_GT(glances.time.size(), 100U);
  for (std::size_t i = 0; i < seen.signals.size(); ++i) {
    const double size = std::max(workshop::highest(seen.trace, seen.signals[i].name), 1e-9);
    for (std::size_t row = 0; row < glances.time.size(); ++row) {
      // Where a step begins both sides of the jump are in the trace; the recorder has what is after it.
      if (std::ranges::count(glances.time, glances.time[row]) > 1) continue;
      EXPECT_NEAR(glances.values[i][row], workshop::at(seen.trace, seen.signals[i].name, glances.time[row]),
                  1e-6 * size)
          << seen.signals[i].name << " at " << glances.time[row];
    }
  }
}

TEST(Onlooker, knows_the_highest_pressure_of_every_step_though_it_looks_at_few) {
  const Seen seen;
  const Glances& glances = seen.trace.glances;
  EXPECT_LT(glances.time.size(), seen.trace.time.size());
  const double recorded = workshop::highest(seen.trace, "P1.P.pressure");
  EXPECT_NEAR(glances.highest[0].value, recorded,
              2e-3 * recorded);  // rows inside steps can stand a little higher
  EXPECT_GE(glances.highest[0].value, *std::ranges::max_element(glances.values[0]));
  EXPECT_LE(glances.lowest[0].value, *std::ranges::min_element(glances.values[0]));
}

TEST(Onlooker, sees_the_first_moment_and_the_last) {
  const Seen seen;
  EXPECT_EQ(seen.trace.glances.time.front(), 0.0);
  EXPECT_EQ(seen.trace.glances.time.back(), seen.trace.time.back());
}

TEST(Onlooker, changes_nothing_of_the_run) {
  const Seen seen;
  const Trace alone =
      dead_headed().run({"P1.P.pressure", "P1.P.flow", "C1.A.pressure", "C1.position", "C1.force"});
  EXPECT_EQ(alone.solver_steps, seen.trace.solver_steps);
  EXPECT_EQ(alone.books.shaft, seen.trace.books.shaft);
}

}  // namespace
}  // namespace poise
