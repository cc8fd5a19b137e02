// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Which of two trials is the better one, and how a verdict becomes shares.
#include "search/trial.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace poise::search {
namespace {

using testing::ElementsAre;

Trial with_shares(std::vector<double> shares, double rules = 0.0) {
  Trial trial{.runs = true, .shares = std::move(shares), .rules = rules};
  for (const double share : trial.shares) trial.missing += std::max(-share, 0.0);
  return trial;
}

TEST(better_trial, is_one_that_runs) {
  EXPECT_TRUE(better(with_shares({-1.5, -1.5}), Trial{}, no_limit));
  EXPECT_FALSE(better(Trial{}, with_shares({-1.5, -1.5}), no_limit));
  EXPECT_EQ(compared(Trial{}, Trial{}, no_limit), 0);
}

TEST(better_trial, misses_less_of_its_promises_before_all_else) {
  EXPECT_TRUE(better(with_shares({-0.1, 0.0}, 100.0), with_shares({-0.2, 0.9}), no_limit));
}

TEST(better_trial, keeps_more_rules_before_it_has_more_room) {
  EXPECT_TRUE(better(with_shares({0.01}, 0.0), with_shares({0.5}, 1.0), no_limit));
}

TEST(better_trial, has_the_larger_smallest_share_then_the_larger_next) {
  EXPECT_TRUE(better(with_shares({0.9, 0.2}), with_shares({0.1, 5.0}), no_limit));
  EXPECT_TRUE(better(with_shares({0.9, 0.1}), with_shares({0.1, 0.8}), no_limit));
  EXPECT_FALSE(better(with_shares({0.1, 0.8}), with_shares({0.8, 0.1}), no_limit));
}

TEST(better_trial, needs_no_more_than_enough) {
  EXPECT_EQ(compared(with_shares({0.1, 0.12}), with_shares({0.9, 0.5}), 0.1), 0);
  EXPECT_EQ(compared(with_shares({0.09, 0.5}), with_shares({0.2, 0.5}), 0.1), 1);
}

TEST(better_trial, is_better_by_more_than_the_tolerance) {
  EXPECT_EQ(compared(with_shares({0.1}), with_shares({0.1009}), no_limit, 1e-3), 0);
  EXPECT_EQ(compared(with_shares({0.1}), with_shares({0.1011}), no_limit, 1e-3), 1);
}

Finding finding(std::string name, std::optional<std::size_t> requirement, bool held,
                std::optional<double> share) {
  return {.name = std::move(name), .held = held, .margin = share, .share = share, .requirement = requirement};
}

Requirement never() { return {.what = Never{}}; }
Requirement reached() { return {.what = Reached{}}; }

// Requirements in the job's order, then what every job has by name; what is held without a number is 1, what
// is broken by a share m is −ln(1 + m), and lowest of all without one.
TEST(trial_of_a_verdict, has_shares_in_the_order_of_the_job) {
  Verdict verdict;
  verdict.findings = {finding("second", 1, false, -0.25), finding("third", 2, false, std::nullopt),
                      finding("no part above its rated pressure", std::nullopt, true, 0.3),
                      finding("first", 0, true, 0.5),
                      finding("every step comes to its end", std::nullopt, true, std::nullopt)};
  verdict.books_close = true;
  const Trial trial = trial_of({}, verdict, {never(), never(), never()});
  EXPECT_TRUE(trial.runs);
  EXPECT_THAT(trial.shares, ElementsAre(0.5, testing::DoubleEq(-std::log(1.25)), unseen_share, 1.0, 0.3));
  EXPECT_EQ(finding_of(trial, 1).name, "second");
  EXPECT_EQ(finding_of(trial, 4).name, "no part above its rated pressure");
  EXPECT_DOUBLE_EQ(trial.missing, std::log(1.25) - unseen_share);
  EXPECT_FALSE(trial.holds());
  EXPECT_DOUBLE_EQ(trial.smallest(), unseen_share);
}

// A rod that never gets there, 1 % short, is further off than one that is there late by nine tenths of its
// time.
TEST(trial_of_a_verdict, counts_never_as_more_than_late) {
  Verdict verdict;
  verdict.books_close = true;
  verdict.findings = {finding("late", 0, false, -0.9), finding("never", 1, false, -0.01),
                      finding("no moment", 2, false, -0.01)};
  verdict.findings[0].quantity = Quantity::time;
  verdict.findings[1].quantity = verdict.findings[2].quantity = Quantity::length;
  const Trial trial = trial_of({}, verdict, {reached(), reached(), never()});
  EXPECT_LT(trial.shares[1], trial.shares[0]);
  EXPECT_LT(trial.shares[0], trial.shares[2]);
}

TEST(trial_of_a_verdict, proves_nothing_where_the_books_do_not_close) {
  Verdict verdict;
  verdict.findings = {finding("first", 0, true, 0.5)};
  const Trial trial = trial_of({}, verdict, {never()});
  EXPECT_FALSE(trial.runs);
  EXPECT_FALSE(trial.holds());
}

TEST(trial_of_a_verdict, weighs_harm_to_people_above_any_number_of_lesser_ones) {
  rules::TradeRule hurts{}, damages{}, works_badly{};
  hurts.harm = rules::Harm::hurts;
  damages.harm = rules::Harm::damages;
  works_badly.harm = rules::Harm::works_badly;
  const auto of = [](const rules::TradeRule& rule, std::size_t further, const std::string& waived = "") {
    Verdict verdict;
    verdict.books_close = true;
    verdict.rules = {{.rule = &rule, .also = std::vector<std::string>(further, "V1"), .waived = waived}};
    return trial_of({}, verdict, {}).rules;
  };
  EXPECT_GT(of(hurts, 0), of(damages, 9));
  EXPECT_GT(of(damages, 0), of(works_badly, 9));
  EXPECT_EQ(of(hurts, 0, "tried on the stand"), 0.0);
}

TEST(worsened_trial, has_the_worse_of_each) {
  Trial trial = with_shares({0.5, 0.2, 0.4}, 1.0);
  worsen(trial, with_shares({0.3, 0.6, -0.1}, 0.0));
  EXPECT_THAT(trial.shares, ElementsAre(0.3, 0.2, -0.1));
  EXPECT_DOUBLE_EQ(trial.missing, 0.1);
  EXPECT_EQ(trial.rules, 1.0);
}

}  // namespace
}  // namespace poise::search
