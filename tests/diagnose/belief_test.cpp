// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/belief.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "diagnose/next.hpp"

namespace poise::diagnose {
namespace {

constexpr double not_seen = std::numeric_limits<double>::quiet_NaN();

/// An atlas by hand: portable gauges, one loose value, what it does to each of them.
Atlas atlas_of(const std::vector<double>& sound, std::vector<double> strays) {
  Atlas atlas{.job = {}, .sound = sound, .loose = {search::Loose{}}};
  const auto count = static_cast<Eigen::Index>(sound.size());
  atlas.strays = Eigen::Map<Eigen::MatrixXd>(strays.data(), count, 1);
  atlas.rest = Eigen::VectorXd::Zero(count);
  for (std::size_t w = 0; w < sound.size(); ++w)
    atlas.watches.push_back(
        {.instrument = Instrument::portable_gauge, .step = w, .at = std::to_string(w), .accuracy = 1.0});
  return atlas;
}

void add(Atlas& atlas, std::string name, std::vector<Course::At> sizes) {
  study::FaultPlace place{.name = std::move(name)};
  place.one_size = sizes.size() == 1;
  atlas.courses.push_back({place, std::move(sizes)});
}

Readings read(const std::vector<std::pair<std::size_t, double>>& values) {
  Readings readings;
  for (const auto& [watch, value] : values)
    readings.list.push_back(
        {.watch = watch, .value = std::isnan(value) ? std::nullopt : std::optional(value), .accuracy = 1.0});
  return readings;
}

/// Variance of a reading by a portable gauge that is off by no more than 1: half and a fifth of it together.
const double by_gauge = 0.46 * 0.46 + 0.2 * 0.2;

TEST(MachineOf, is_what_least_squares_make_of_one_reading) {
  const Atlas atlas = atlas_of({100.0}, {3.0});
  const Machine machine = machine_of(atlas, read({{0, 104.0}}).list);
  // x ~ N(0, 1), y = 100 + 3 x + e: E[x | y] = 3 (y − 100) / (9 + var e), var[x | y] = var e / (9 + var e).
  EXPECT_NEAR(machine.mean[0], 3.0 * 4.0 / (9.0 + by_gauge), 1e-12);
  EXPECT_NEAR(machine.spread(0, 0), by_gauge / (9.0 + by_gauge), 1e-12);
}

TEST(MachineOf, forgets_the_temperature_of_that_day) {
  Atlas atlas = atlas_of({100.0}, {3.0});
  atlas.loose[0].of = search::Loose::Of::oil_temperature;
  const Machine machine = machine_of(atlas, read({{0, 104.0}}).list);
  EXPECT_EQ(machine.mean[0], 0.0);
  EXPECT_EQ(machine.spread(0, 0), 1.0);
}

TEST(Belief, weighs_two_suspects_by_their_misses_as_student_does) {
  Atlas atlas = atlas_of({100.0}, {3.0});
  add(atlas, "low", {{1.0, {90.0}}});
  const Machine machine = unknown_machine(atlas);
  const Belief belief(atlas, machine, read({{0, 92.0}}));
  // The faulty machine strays by 4 % of what the fault changes besides.
  const double sound = 9.0 + by_gauge, faulty = sound + 0.4 * 0.4;
  const auto of_one = [](double misses) {
    return 21.0 * std::log1p(misses / 21.0);
  };  // 20 degrees and one reading
  const double fit_sound = -0.5 * of_one(64.0 / sound),
               fit_low = -0.5 * of_one(4.0 / faulty) - 0.5 * std::log(faulty / sound);
  for (const Suspect& suspect : belief.suspects())
    EXPECT_NEAR(suspect.fit, suspect.course == Suspect::sound ? fit_sound : fit_low, 1e-12);
  EXPECT_EQ(belief.suspects().front().course, 0u);
}

TEST(Belief, finds_the_size_that_fits_between_those_that_were_run) {
  Atlas atlas = atlas_of({100.0}, {0.1});
  add(atlas, "leak", {{0.0, {100.0}}, {1.0, {50.0}}});
  const Machine machine = unknown_machine(atlas);
  const Belief belief(atlas, machine, read({{0, 70.0}}));
  ASSERT_EQ(belief.suspects().front().course, 0u);
  EXPECT_NEAR(belief.suspects().front().t, 0.6, 0.03);
  EXPECT_LE(belief.suspects().front().t_low, 0.6);
  EXPECT_GE(belief.suspects().front().t_high, 0.6);
}

TEST(Belief, foretells_one_reading_from_the_others) {
  const Atlas atlas = atlas_of({100.0, 50.0}, {3.0, 2.0});
  const Machine machine = unknown_machine(atlas);
  const Belief belief(atlas, machine, read({{0, 106.0}, {1, 40.0}}));
  const auto expected = belief.expected(belief.suspects().front());
  // E[y₁ | y₀] = 50 + cov / var₀ × (y₀ − 100), with cov = 2 × 3 and var₀ = 9 + the gauge's.
  const double from = 50.0 + 6.0 / (9.0 + by_gauge) * 6.0;
  const double variance = 4.0 + by_gauge - 36.0 / (9.0 + by_gauge);
  EXPECT_NEAR(expected[1].by_others, from, 1e-9);
  EXPECT_NEAR(expected[1].off, (40.0 - from) / std::sqrt(variance), 1e-9);
}

TEST(Belief, foretells_what_was_not_read_from_what_was) {
  const Atlas atlas = atlas_of({100.0, 50.0}, {3.0, 2.0});
  const Machine machine = unknown_machine(atlas);
  const Belief belief(atlas, machine, read({{0, 106.0}}));
  const Expected next = belief.foretold(belief.suspects().front(), 1);
  EXPECT_NEAR(next.value, 50.0 + 6.0 / (9.0 + by_gauge) * 6.0, 1e-9);
  EXPECT_NEAR(next.sigma, std::sqrt(4.0 - 36.0 / (9.0 + by_gauge)), 1e-9);
}

TEST(Belief, holds_a_moment_that_never_came_against_who_says_it_does) {
  Atlas atlas = atlas_of({100.0}, {3.0});
  add(atlas, "stuck", {{1.0, {not_seen}}});
  const Machine machine = unknown_machine(atlas);
  EXPECT_EQ(Belief(atlas, machine, read({{0, not_seen}})).suspects().front().course, 0u);
  EXPECT_EQ(Belief(atlas, machine, read({{0, 101.0}})).suspects().front().course, Suspect::sound);
}

TEST(Belief, groups_what_the_readings_cannot_tell_apart) {
  Atlas atlas = atlas_of({100.0, 50.0}, {1.0, 1.0});
  add(atlas, "a", {{1.0, {70.0, 50.0}}});
  add(atlas, "b", {{1.0, {70.5, 20.0}}});
  add(atlas, "c", {{1.0, {130.0, 50.0}}});
  const Machine machine = unknown_machine(atlas);
  const auto alike = Belief(atlas, machine, read({{0, 70.2}})).groups();
  ASSERT_EQ(alike.front().suspects.size(), 2u);
  EXPECT_LE(alike.front().suspects[0].course, 1u);
  EXPECT_LE(alike.front().suspects[1].course, 1u);
  const auto told = Belief(atlas, machine, read({{0, 70.2}, {1, 20.3}})).groups();
  ASSERT_EQ(told.front().suspects.size(), 1u);
  EXPECT_EQ(told.front().suspects[0].course, 1u);
}

TEST(Next, is_the_measurement_that_parts_them_and_tells_one_bit_of_two) {
  Atlas atlas = atlas_of({100.0, 50.0, 80.0}, {1.0, 1.0, 1.0});
  add(atlas, "a", {{1.0, {60.0, 50.0, 80.0}}});
  add(atlas, "b", {{1.0, {60.0, 50.0, 20.0}}});
  const Machine machine = unknown_machine(atlas);
  const auto next = next_measurements(Belief(atlas, machine, read({{0, 60.0}})));
  ASSERT_EQ(next.size(), 1u) << "the second gauge tells nothing";
  EXPECT_EQ(next.front().watch, 2u);
  EXPECT_NEAR(next.front().tells, 1.0, 0.01) << "Shannon: two alike likely, wholly parted";
}

TEST(Next, is_nothing_where_nothing_is_left_to_tell_apart) {
  Atlas atlas = atlas_of({100.0, 50.0}, {1.0, 1.0});
  add(atlas, "a", {{1.0, {60.0, 50.0}}});
  const Machine machine = unknown_machine(atlas);
  EXPECT_TRUE(next_measurements(Belief(atlas, machine, read({{0, 60.0}}))).empty());
}

}  // namespace
}  // namespace poise::diagnose
