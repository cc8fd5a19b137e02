// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/reduce.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace poise::draw {
namespace {

std::vector<Point> any_curve() {
  const auto count = *rc::gen::inRange<std::size_t>(1, 400);
  std::vector<Point> curve;
  double x = 0.0;
  for (std::size_t i = 0; i < count; ++i) {
    x += 1e-3 * *rc::gen::inRange(0, 300);
    curve.push_back({x, 0.1 * *rc::gen::inRange(-500, 500)});
  }
  return curve;
}

struct Extremes {
  double low = 1e9, high = -1e9;
};

std::map<long, Extremes> extremes_by_column(const std::vector<Point>& curve, double width) {
  std::map<long, Extremes> all;
  for (const Point& p : curve) {
    Extremes& here = all[static_cast<long>(std::floor(p.x / width))];
    here = {std::min(here.low, p.y), std::max(here.high, p.y)};
  }
  return all;
}

// Level stretches may lose inner points, which no extreme can be unless its column's ends are as high.
RC_GTEST_PROP(reduction, loses_no_peak_of_any_column, ()) {
  const double width = 0.25;
  const auto curve = any_curve();
  const auto kept = reduced(curve, width);
  const auto before = extremes_by_column(curve, width);
  const auto after = extremes_by_column(kept, width);
  for (const auto& [column, extremes] : after) {
    RC_ASSERT(std::abs(extremes.low - before.at(column).low) < 0.01);
    RC_ASSERT(std::abs(extremes.high - before.at(column).high) < 0.01);
  }
  const auto [low, high] = std::ranges::minmax(curve, {}, &Point::y);
  const auto [kept_low, kept_high] = std::ranges::minmax(kept, {}, &Point::y);
  RC_ASSERT(kept_low.y == low.y);
  RC_ASSERT(kept_high.y == high.y);
}

RC_GTEST_PROP(reduction, keeps_the_ends_and_the_order, ()) {
  const auto curve = any_curve();
  const auto kept = reduced(curve, 0.25);
  RC_ASSERT(kept.front() == curve.front());
  RC_ASSERT(kept.back() == curve.back());
  RC_ASSERT(std::ranges::is_sorted(kept, {}, &Point::x));
}

// One spike among a million rows of noise, 0.1 mm wide on paper.
TEST(reduction, keeps_one_spike_among_many_rows) {
  std::vector<Point> curve;
  for (int i = 0; i <= 1'000'000; ++i)
    curve.push_back({200.0 * i / 1'000'000, i == 654'321 ? 99.0 : 0.1 * (i % 3)});
  const auto kept = reduced(curve, 0.15);
  EXPECT_LT(kept.size(), 4U * 200U * 7U);
  EXPECT_EQ(std::ranges::max(kept, {}, &Point::y).y, 99.0);
}

TEST(reduction, of_a_level_line_are_its_ends) {
  std::vector<Point> curve;
  for (int i = 0; i <= 1000; ++i) curve.push_back({0.1 * i, 7.0});
  EXPECT_EQ(reduced(curve, 0.15).size(), 2U);
}

}  // namespace
}  // namespace poise::draw
