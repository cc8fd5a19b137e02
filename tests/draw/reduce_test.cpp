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

/// How far a point is from a line of straight pieces.
double distance(Point p, const std::vector<Point>& line) {
  double least = std::hypot(p.x - line.front().x, p.y - line.front().y);
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Point a = line[i - 1], b = line[i];
    const double along = b.x - a.x, up = b.y - a.y, square = along * along + up * up;
    const double share =
        square > 0.0 ? std::clamp(((p.x - a.x) * along + (p.y - a.y) * up) / square, 0.0, 1.0) : 0.0;
    least = std::min(least, std::hypot(p.x - a.x - share * along, p.y - a.y - share * up));
  }
  return least;
}

/// The lowest and the highest point of each column.
std::vector<Point> extremes_by_column(const std::vector<Point>& curve, double width) {
  std::map<long, std::pair<Point, Point>> all;
  for (const Point& p : curve) {
    auto& [low, high] = all.try_emplace(static_cast<long>(std::floor(p.x / width)), p, p).first->second;
    if (p.y < low.y) low = p;
    if (p.y > high.y) high = p;
  }
  std::vector<Point> extremes;
  for (const auto& [column, both] : all) {
    extremes.push_back(both.first);
    extremes.push_back(both.second);
  }
  return extremes;
}

// What is drawn passes every peak and every trough of every column, though a peak on a straight way has no
// corner.
RC_GTEST_PROP(reduction, loses_no_peak_of_any_column, ()) {
  const double width = 0.25;
  const auto curve = any_curve();
  const auto kept = reduced(curve, width);
  for (const Point& extreme : extremes_by_column(curve, width)) RC_ASSERT(distance(extreme, kept) < 0.01);
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

TEST(reduction, of_a_straight_way_with_one_corner_are_three_points) {
  std::vector<Point> curve;
  for (int i = 0; i <= 1000; ++i) curve.push_back({0.1 * i, i <= 400 ? 0.03 * i : 12.0 + 0.01 * (i - 400)});
  EXPECT_EQ(reduced(curve, 0.15).size(), 3U);
}

TEST(reduction, of_a_level_line_are_its_ends) {
  std::vector<Point> curve;
  for (int i = 0; i <= 1000; ++i) curve.push_back({0.1 * i, 7.0});
  EXPECT_EQ(reduced(curve, 0.15).size(), 2U);
}

}  // namespace
}  // namespace poise::draw
