// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/drivers.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "study/draws.hpp"

namespace poise::study {
namespace {

Eigen::MatrixXd places(Eigen::Index machines, Eigen::Index loose) {
  const Draws draws(static_cast<std::size_t>(loose), 1);
  Eigen::MatrixXd all(machines, loose);
  for (Eigen::Index m = 0; m < machines; ++m) {
    const std::vector<double> point = draws.at(m + 1);
    for (Eigen::Index i = 0; i < loose; ++i) all(m, i) = 2.0 * point[static_cast<std::size_t>(i)] - 1.0;
  }
  return all;
}

double share_of(const Drivers& drivers, std::size_t loose) {
  for (const Driver& driver : drivers.ranked) {
    if (driver.loose == loose) return driver.share;
  }
  return -1.0;
}

// y = Σ aᵢ·xᵢ with every xᵢ uniform over −1 … 1: variance Σ aᵢ²/3, shares aᵢ²/Σ aᵢ².
TEST(drivers, of_a_straight_law_have_the_shares_of_their_squares) {
  const Eigen::Vector4d slopes(3.0, -2.0, 1.0, 0.0);
  for (const Eigen::Index machines : {40, 200, 2000}) {
    const Eigen::MatrixXd x = places(machines, 4);
    const Drivers drivers = DriverFit(x).drivers_of((x * slopes).array() + 10.0);
    ASSERT_TRUE(drivers.enough);
    EXPECT_NEAR(drivers.mean, 10.0, 0.1);
    EXPECT_NEAR(drivers.variance, 14.0 / 3.0, 14.0 / 3.0 * 2.0 / std::sqrt(static_cast<double>(machines)));
    EXPECT_NEAR(share_of(drivers, 0), 9.0 / 14.0, 2.0 / std::sqrt(static_cast<double>(machines)));
    EXPECT_NEAR(share_of(drivers, 1), 4.0 / 14.0, 2.0 / std::sqrt(static_cast<double>(machines)));
    EXPECT_NEAR(share_of(drivers, 3), 0.0, 1e-9);
    EXPECT_EQ(drivers.ranked.front().loose, 0u);
    EXPECT_NEAR(drivers.ranked.front().slope, 3.0, 1e-9);
    EXPECT_NEAR(drivers.ranked[1].slope, -2.0, 1e-9);
  }
}

// y = x₀·x₁ + x₂: Var(x₀·x₁) = 1/9, Var(x₂) = 1/3; what only two make together belongs to none alone.
TEST(drivers, what_two_make_together_is_told_apart) {
  const Eigen::MatrixXd x = places(4000, 5);
  const Drivers drivers = DriverFit(x).drivers_of(x.col(0).cwiseProduct(x.col(1)) + x.col(2));
  EXPECT_NEAR(share_of(drivers, 2), 0.75, 0.02);
  EXPECT_NEAR(drivers.together, 0.25, 0.02);
  EXPECT_LT(share_of(drivers, 0), 0.01);
}

// y = x₀²: the variance of a square over −1 … 1 is 4/45, all of it made by one value, and bent.
TEST(drivers, a_bend_counts_and_is_not_straight) {
  const Eigen::MatrixXd x = places(2000, 3);
  const Drivers drivers = DriverFit(x).drivers_of(x.col(0).cwiseAbs2());
  EXPECT_NEAR(drivers.variance, 4.0 / 45.0, 2e-3);
  EXPECT_NEAR(share_of(drivers, 0), 1.0, 0.01);
  EXPECT_FALSE(drivers.ranked.front().straight);
}

// Pure chance drives nothing: what a coefficient has by chance is taken off.
TEST(drivers, chance_drives_nothing) {
  const Eigen::MatrixXd all = places(3000, 21);
  Eigen::VectorXd noise = all.col(20);
  const Drivers drivers = DriverFit(all.leftCols(20)).drivers_of(noise);
  double alone = 0.0;
  for (const Driver& driver : drivers.ranked) alone += driver.share;
  EXPECT_LT(alone, 0.02);
}

TEST(drivers, too_few_machines_or_nothing_that_varies_tell_nothing) {
  const Eigen::MatrixXd few = places(8, 6), many = places(100, 2);
  EXPECT_FALSE(DriverFit(few).drivers_of(few.col(0)).enough);
  EXPECT_FALSE(DriverFit(many).drivers_of(Eigen::VectorXd::Constant(100, 7.0)).enough);
}

}  // namespace
}  // namespace poise::study
