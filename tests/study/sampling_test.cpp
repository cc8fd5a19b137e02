// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/sampling.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace poise::study {
namespace {

using testing::ElementsAre;

// C. J. Clopper, E. S. Pearson, Biometrika 26 (1934): with none of n the upper limit at 95 % on two sides is
// 1 − 0.025^(1/n).
TEST(share, of_none_is_below_the_limit_in_closed_form) {
  const Share share = share_of(0, 1000);
  EXPECT_EQ(share.value, 0.0);
  EXPECT_EQ(share.low, 0.0);
  EXPECT_NEAR(share.high, 1.0 - std::pow(0.025, 1e-3), 1e-12);
  const Share all = share_of(1000, 1000);
  EXPECT_NEAR(all.low, std::pow(0.025, 1e-3), 1e-12);
  EXPECT_EQ(all.high, 1.0);
}

/// Share of all outcomes of n draws, each a hit with probability p, that have at most k hits.
double at_most(long most, long all, double p) {
  const auto n = static_cast<double>(all);
  double sum = 0.0;
  for (long i = 0; i <= most; ++i) {
    const auto k = static_cast<double>(i);
    sum += std::exp(std::lgamma(n + 1.0) - std::lgamma(k + 1.0) - std::lgamma(n - k + 1.0) + k * std::log(p) +
                    (n - k) * std::log1p(-p));
  }
  return sum;
}

// Its limits are the probabilities with which so few, or so many, come in one of forty trials.
TEST(share, limits_leave_a_fortieth_on_each_side) {
  for (const auto& [k, n] : {std::pair{5L, 10L}, {3L, 40L}, {97L, 100L}}) {
    const Share share = share_of(k, n);
    EXPECT_NEAR(at_most(k, n, share.high), 0.025, 1e-9);
    EXPECT_NEAR(1.0 - at_most(k - 1, n, share.low), 0.025, 1e-9);
  }
}

TEST(share, reads_with_the_digits_that_its_doubt_bears) {
  EXPECT_EQ(words_of(share_of(9731, 10000)), "97.3 % (97.0 … 97.6 %)");
  EXPECT_EQ(words_of(share_of(5, 10)), "50 % (19 … 81 %)");
  EXPECT_EQ(words_of(share_of(0, 1000)), "none of 1,000 (below 0.37 %)");
  EXPECT_EQ(words_of(share_of(0, 0)), "no machine was run");
}

TEST(count, parts_its_thousands) {
  EXPECT_EQ(count(0), "0");
  EXPECT_EQ(count(999), "999");
  EXPECT_EQ(count(1000), "1,000");
  EXPECT_EQ(count(12345678), "12,345,678");
}

TEST(quantile, lies_on_a_straight_line_between_values) {
  const std::vector<double> sorted{1.0, 2.0, 4.0};
  EXPECT_EQ(quantile(sorted, 0.0), 1.0);
  EXPECT_EQ(quantile(sorted, 0.5), 2.0);
  EXPECT_DOUBLE_EQ(quantile(sorted, 0.75), 3.0);
  EXPECT_EQ(quantile(sorted, 1.0), 4.0);
}

TEST(histogram, counts_every_value_once) {
  const Histogram bars = histogram({0.0, 0.1, 0.5, 1.0}, 4);
  EXPECT_EQ(bars.from, 0.0);
  EXPECT_EQ(bars.to, 1.0);
  EXPECT_THAT(bars.counts, ElementsAre(2, 0, 1, 1));
  EXPECT_THAT(histogram({3.0, 3.0}, 2).counts, ElementsAre(2, 0));
  EXPECT_TRUE(histogram({}, 4).counts.empty());
}

}  // namespace
}  // namespace poise::study
