// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The order in which sizes are run, and what follows from their outcomes.
#include <gtest/gtest.h>

#include <cmath>

#include "study/fault_order.hpp"

namespace poise::study {
namespace {

/// Runs sizes as long as there is a next one, with a machine that breaks from a size on.
std::vector<SizedOutcome> runs(const FaultPlace& place, double breaks_from) {
  std::vector<SizedOutcome> done;
  while (const auto next = next_size(place, done))
    done.push_back({*next, *next >= breaks_from ? Outcome::broken : Outcome::held});
  return done;
}

TEST(fault_order, begins_slight_then_grave) {
  const FaultPlace place;
  EXPECT_EQ(next_size(place, {}), 0.0);
  const std::vector<SizedOutcome> slight{{0.0, Outcome::held}};
  EXPECT_EQ(next_size(place, slight), 1.0);
}

TEST(fault_order, halves_four_times_where_slight_holds_and_grave_breaks) {
  const auto done = runs(FaultPlace{}, 0.3);
  ASSERT_EQ(done.size(), 6u);
  // 0.5 breaks, 0.25 holds, 0.375 breaks, 0.3125 breaks.
  EXPECT_EQ(done[2].t, 0.5);
  EXPECT_EQ(done[3].t, 0.25);
  EXPECT_EQ(done[4].t, 0.375);
  EXPECT_EQ(done[5].t, 0.3125);
}

TEST(fault_order, brackets_where_it_breaks_within_a_sixteenth_wherever_that_is) {
  for (double from = 0.01; from < 1.0; from += 0.07) {
    double holds = 0.0, breaks = 1.0;
    for (const SizedOutcome& each : runs(FaultPlace{}, from)) {
      if (each.outcome == Outcome::held) holds = std::max(holds, each.t);
      if (each.outcome == Outcome::broken) breaks = std::min(breaks, each.t);
    }
    EXPECT_LT(holds, from);
    EXPECT_GE(breaks, from);
    EXPECT_EQ(breaks - holds, 1.0 / 16.0);
  }
}

TEST(fault_order, does_not_halve_where_both_hold_or_the_slight_one_breaks) {
  EXPECT_EQ(runs(FaultPlace{}, 2.0).size(), 2u);
  EXPECT_EQ(runs(FaultPlace{}, 0.0).size(), 2u);
}

// What breaks at the least size tried may break below it: the words must not pass for a threshold.
TEST(fault_order, says_where_no_smaller_size_was_tried) {
  const auto breaks_at = [](double t) {
    return FaultAnswer{
        .t = t, .change = "leakage 1.00 cm3/min", .outcome = Outcome::broken, .breaks = {Break{}}};
  };
  EXPECT_EQ((FaultResult{FaultPlace{}, {breaks_at(0.25), breaks_at(1.0)}}.breaks_from_in_words()),
            "leakage 1.00 cm3/min");
  EXPECT_EQ((FaultResult{FaultPlace{}, {breaks_at(0.0), breaks_at(1.0)}}.breaks_from_in_words()),
            "leakage 1.00 cm3/min, the least tried");
  EXPECT_EQ((FaultResult{FaultPlace{.one_size = true}, {breaks_at(1.0)}}.breaks_from_in_words()), "");
}

TEST(fault_order, does_not_halve_what_is_not_proven) {
  const std::vector<SizedOutcome> so_far{{0.0, Outcome::not_proven}, {1.0, Outcome::broken}};
  EXPECT_FALSE(next_size(FaultPlace{}, so_far));
}

TEST(fault_order, runs_a_fault_of_one_size_once) {
  FaultPlace place;
  place.one_size = true;
  const auto done = runs(place, 2.0);
  ASSERT_EQ(done.size(), 1u);
  EXPECT_EQ(done[0].t, 1.0);
}

TEST(fault_order, asks_the_same_whatever_the_order_of_rows) {
  const std::vector<SizedOutcome> one{{0.0, Outcome::held}, {1.0, Outcome::broken}, {0.5, Outcome::held}};
  const std::vector<SizedOutcome> other{{0.5, Outcome::held}, {1.0, Outcome::broken}, {0.0, Outcome::held}};
  EXPECT_EQ(next_size(FaultPlace{}, one), 0.75);
  EXPECT_EQ(next_size(FaultPlace{}, other), 0.75);
}

TEST(fault_sizes, lie_between_slight_and_grave_by_factors_or_differences) {
  FaultPlace leak;
  leak.slight = 1.0;
  leak.grave = 100.0;
  leak.factors = true;
  EXPECT_NEAR(leak.size(0.5), 10.0, 1e-12);
  leak.factors = false;
  EXPECT_NEAR(leak.size(0.5), 50.5, 1e-12);
  EXPECT_EQ(leak.size(0.0), 1.0);
  EXPECT_EQ(leak.size(1.0), 100.0);
}

FaultAnswer found(double t, Outcome outcome, Severity severity) {
  FaultAnswer answer;
  answer.t = t;
  answer.outcome = outcome;
  answer.severity = severity;
  if (outcome == Outcome::broken) answer.breaks.push_back({"promise", "found", severity, 1.0});
  return answer;
}

TEST(fault_result, takes_the_worst_severity_and_tells_of_the_smallest_size_that_breaks) {
  FaultResult result;
  result.answers = {found(0.0, Outcome::held, Severity::nothing_breaks),
                    found(1.0, Outcome::broken, Severity::hurts),
                    found(0.5, Outcome::broken, Severity::works_badly)};
  EXPECT_EQ(result.severity(), Severity::hurts);
  ASSERT_TRUE(result.breaks_from());
  EXPECT_EQ(result.breaks_from()->t, 0.5);
  EXPECT_EQ(result.telling(), result.breaks_from());
}

FaultResult held_at(Severity severity, double t, const char* part, int on) {
  FaultResult result;
  result.place.name = std::string(part) + " fault";
  result.place.part = part;
  result.place.on = on;
  result.answers = {
      found(0.0, Outcome::held, Severity::nothing_breaks),
      found(t, severity == Severity::nothing_breaks ? Outcome::held : Outcome::broken, severity)};
  return result;
}

TEST(fault_pairs, join_what_breaks_nothing_alone_at_its_greatest_held_size) {
  const std::vector results{held_at(Severity::nothing_breaks, 1.0, "A", 0),
                            held_at(Severity::hurts, 1.0, "B", 1),
                            held_at(Severity::nothing_breaks, 1.0, "A", 0)};
  const auto pairs = pairs_of(results);
  ASSERT_EQ(pairs.size(), 2u);  // not A with A
  EXPECT_EQ(pairs[0].a, 0u);
  EXPECT_EQ(pairs[0].b, 1u);
  EXPECT_EQ(pairs[0].t_a, 1.0);
  EXPECT_EQ(pairs[0].t_b, 0.0);
  EXPECT_EQ(name_of(pairs[0], {results[0].place, results[1].place, results[2].place}),
            "A fault, with B fault");
}

}  // namespace
}  // namespace poise::study
