// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/spread.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "study/load_on_a_shut_jack.hpp"
#include "study/spread_run.hpp"
#include "study/spread_words.hpp"

namespace poise::study {
namespace {

Job job_of(std::string_view text) {
  auto read = read_job(text, "test.toml");
  if (const auto* complaints = std::get_if<Complaints>(&read)) throw std::logic_error(complaints->text(text));
  return std::get<Job>(std::move(read));
}

bool always() { return true; }

SpreadStudy prepared(std::string_view text, const SpreadWish& wish) {
  auto study = prepare(job_of(text), std::string(text), "test", wish, always);
  if (const auto* why = std::get_if<std::string>(&study)) throw std::logic_error(*why);
  return std::get<SpreadStudy>(std::move(study));
}

/// Runs a whole spread without a record.
std::vector<Row> rows_of(const SpreadStudy& study) {
  std::vector<Row> rows{study.nominal};
  for (long number = 1; number <= study.wish.machines; ++number) {
    const auto ran = run_machine(study.spread.machine(number), {.most_steps = study.most_steps});
    rows.push_back(row_of(number, study.heading.promises, study.spread.job(), ran->verdict));
  }
  return rows;
}

std::size_t place(const Spread& spread, std::string_view name) {
  for (std::size_t i = 0; i < spread.loose().size(); ++i) {
    if (name_of(spread.loose()[i], spread.job()) == name) return i;
  }
  throw std::logic_error("no loose value " + std::string(name));
}

double share_of(const Drivers& drivers, std::size_t loose) {
  for (const Driver& driver : drivers.ranked) {
    if (driver.loose == loose) return driver.share;
  }
  return 0.0;
}

TEST(spread, machine_0_is_the_job_as_stated) {
  const Spread spread(job_of(load_on_a_shut_jack), 1);
  const Job machine = spread.machine(0);
  for (std::size_t p = 0; p < machine.plan.parts.size(); ++p) {
    const auto stated = spread.job().plan.parts[p].values.all(), here = machine.plan.parts[p].values.all();
    for (std::size_t i = 0; i < stated.size(); ++i) {
      EXPECT_TRUE(stated[i] == here[i] || std::isnan(stated[i]));
    }
  }
  EXPECT_EQ(machine.plan.oil.temperature, spread.job().plan.oil.temperature);
}

// Of eight machines two break a promise, four hold it and two end before it can be told: 2 of 6 break.
TEST(spread, machines_that_did_not_come_far_enough_are_left_out_of_the_share_that_breaks) {
  const Spread spread(job_of(load_on_a_shut_jack), 1);
  const std::vector<Promise> promises{{.name = "holds", .promised = "holds", .quantity = Quantity::pressure}};
  std::vector<Row> rows{{.number = 0, .outcome = Outcome::held, .promises = {{Mark::held, 1e5, 0.1}}}};
  for (long number = 1; number <= 8; ++number) {
    const Kept kept = number <= 2   ? Kept{Mark::broken, -1e5, -0.1}
                      : number <= 6 ? Kept{Mark::held, 1e5, 0.1}
                                    : Kept{Mark::unseen, std::nullopt, std::nullopt};
    const Outcome outcome = number <= 2 ? Outcome::broken : number <= 6 ? Outcome::held : Outcome::not_proven;
    rows.push_back({.number = number, .outcome = outcome, .promises = {kept}});
  }
  const SpreadAnswer answer = answer_of(spread, promises, rows, 8);
  const PromiseSpread& promise = answer.promises.front();
  EXPECT_EQ(promise.unseen, 2);
  EXPECT_EQ(promise.broken.of, 2);
  EXPECT_EQ(promise.broken.all, 6);
  EXPECT_EQ(answer.not_proven, 2);
  EXPECT_EQ(answer.kept.of, 4);
  EXPECT_EQ(answer.kept.all, 8);
}

// A force of 20 kN −2 … +4 kN lies anywhere from 18 to 24 kN, each place alike likely: its mean is 21 kN.
TEST(spread, a_value_with_uneven_sides_lies_evenly_between_its_ends) {
  const Spread spread(job_of(load_on_a_shut_jack), 1);
  const search::Loose& force = spread.loose()[place(spread, "F2.force")];
  constexpr long machines = 1024;
  double mean = 0.0, least = 1e9, most = 0.0;
  for (long number = 1; number <= machines; ++number) {
    const double value = force.at(spread.off(number)[place(spread, "F2.force")]);
    mean += value / machines;
    least = std::min(least, value);
    most = std::max(most, value);
  }
  EXPECT_NEAR(mean, 21e3, 6e3 / machines);
  EXPECT_NEAR(least, 18e3, 6e3 / machines);
  EXPECT_NEAR(most, 24e3, 6e3 / machines);
  for (const double u : {-1.0, -0.3, 0.0, 0.4, 1.0}) EXPECT_NEAR(off_at(force, place_of(force, u)), u, 1e-12);
}

// p = (F1 + F2)/A. F1 is uniform over ± 5 kN, F2 over 18 … 24 kN: variances (5 kN)²/3 and (3 kN)²/3 over A²,
// mean (50 + 21) kN over A. Shares 25/34 and 9/34; the oil's temperature, air and modulus drive nothing.
TEST(spread, a_straight_promise_has_the_mean_variance_and_shares_of_the_closed_form) {
  constexpr long machines = fewer(512);
  const SpreadStudy study = prepared(load_on_a_shut_jack, {.machines = machines});
  const SpreadAnswer answer = answer_of(study.spread, study.heading.promises, rows_of(study), machines);
  const double area = std::numbers::pi / 4.0 * 0.08 * 0.08;
  const double mean = 150e5 - 71e3 / area, variance = (25e6 + 9e6) / 3.0 / area / area;
  const double doubt = std::sqrt(variance / machines);
  const PromiseSpread& of = answer.promises.front();
  EXPECT_NEAR(of.drivers.mean, mean, 3.0 * doubt);
  // The variance of a sample of N: σ²·√((κ − 1)/N), with κ = 3 − 1.2·(Σσᵢ⁴)/σ⁴ for a sum of uniform values.
  const double kurtosis = 3.0 - 1.2 * (25.0 * 25.0 + 9.0 * 9.0) / (34.0 * 34.0);
  EXPECT_NEAR(of.drivers.variance, variance, 3.0 * variance * std::sqrt((kurtosis - 1.0) / machines));
  EXPECT_NEAR(share_of(of.drivers, place(study.spread, "F1.force")), 25.0 / 34.0, 3.0 / std::sqrt(machines));
  EXPECT_NEAR(share_of(of.drivers, place(study.spread, "F2.force")), 9.0 / 34.0, 3.0 / std::sqrt(machines));
  EXPECT_LT(share_of(of.drivers, place(study.spread, "oil temperature")), 0.01);
  EXPECT_LT(of.drivers.together, 0.01);
}

// Broken where F1 + F2 > 150 bar · A = 75.4 kN: the corner of the rectangle 45…55 × 18…24 kN beyond that line
// is a triangle with legs 79 − 75.398 kN, of area legs²/2 over 60 kN².
TEST(spread, the_share_that_breaks_is_that_of_the_corner_beyond_the_limit) {
  constexpr long machines = fewer(1024);
  const SpreadStudy study = prepared(load_on_a_shut_jack, {.machines = machines, .seed = 4});
  const SpreadAnswer answer = answer_of(study.spread, study.heading.promises, rows_of(study), machines);
  const double leg = 79e3 - 150e5 * std::numbers::pi / 4.0 * 0.08 * 0.08;
  const double expected = leg * leg / 2.0 / 60e6;
  EXPECT_LE(answer.promises.front().broken.low, expected);
  EXPECT_GE(answer.promises.front().broken.high, expected);
  EXPECT_NEAR(answer.promises.front().broken.value, expected, 10.0 / machines);
  EXPECT_EQ(answer.kept.of + answer.broken, machines);
}

// From 70 kN it takes 5.398 kN. The shortest way, measured in shares of the tolerances, goes along (5, 4) kN:
// u = 5.398·(5, 4)/41.
TEST(spread, the_nearest_machine_that_breaks_lies_along_the_slopes) {
  const SpreadStudy study = prepared(load_on_a_shut_jack, {.machines = fewer(256)});
  const SpreadAnswer answer =
      answer_of(study.spread, study.heading.promises, rows_of(study), study.wish.machines);
  const auto found =
      nearest(*study.nominal.promises[0].margin, answer.promises[0].pulls, nullptr,
              [&](const std::vector<double>& off) {
                const auto ran = run_machine(study.spread.with(off), {});
                return row_of(0, study.heading.promises, study.spread.job(), ran->verdict).promises[0];
              });
  ASSERT_TRUE(found && found->found);
  const double needed = (150e5 * std::numbers::pi / 4.0 * 0.08 * 0.08 - 70e3) / 1e3;
  EXPECT_NEAR(found->off[place(study.spread, "F1.force")], needed * 5.0 / 41.0, 0.04);
  EXPECT_NEAR(found->off[place(study.spread, "F2.force")], needed * 4.0 / 41.0, 0.04);
  EXPECT_THAT(nearest_in_words(*found, study.spread), testing::StartsWith("at 0.6"));
}

// What the rows say of the job as stated is what `poise prove` says, which judges the rules besides.
TEST(spread, rules_of_the_trade_change_no_row) {
  const SpreadStudy study = prepared(load_on_a_shut_jack, {.machines = 1});
  const auto with_rules = run_machine(study.spread.job(), {.rules = true});
  const Row row = row_of(0, study.heading.promises, study.spread.job(), with_rules->verdict);
  for (std::size_t p = 0; p < row.promises.size(); ++p)
    EXPECT_EQ(row.promises[p].margin, study.nominal.promises[p].margin);
}

}  // namespace
}  // namespace poise::study
