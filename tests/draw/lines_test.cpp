// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/lines.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace poise::draw {
namespace {

using testing::ElementsAre;

const Mapping mapping{.module = 2.0, .origin = {10.0, 5.0}};
constexpr Colour wine{90, 0, 43};

std::vector<Mark> line(const Wire& wire, std::optional<Colour> colour = {}) {
  std::vector<Mark> marks;
  add_line(marks, wire, mapping, colour);
  return marks;
}
const std::vector<Point>& points(const Mark& mark) { return std::get<Polyline>(mark.shape).points; }

Wire corner() { return {.ports = {}, .segments = {{{0, 0}, {0, 10}}, {{5, 10}, {0, 10}}}, .junctions = {}}; }

TEST(Lines, segments_that_follow_one_another_are_one_line_in_millimetres) {
  const auto marks = line(corner());
  ASSERT_EQ(marks.size(), 1U);
  EXPECT_THAT(points(marks[0]), ElementsAre(Point{10, 5}, Point{10, 25}, Point{20, 25}));
  EXPECT_EQ(marks[0].pen.layer, Layer::working);
  EXPECT_EQ(marks[0].pen.dash, Dash::solid);
  EXPECT_DOUBLE_EQ(marks[0].pen.width, 0.25);  // 0.1 M at M = 2.5 mm (ISO 1219-1, from memory)
}

TEST(Lines, a_pilot_line_is_dashed_and_ends_where_a_working_line_begins) {
  Wire wire = corner();
  wire.segments[0].pilot = true;
  const auto marks = line(wire);
  ASSERT_EQ(marks.size(), 2U);
  EXPECT_EQ(marks[0].pen.dash, Dash::dashed);
  EXPECT_EQ(marks[0].pen.layer, Layer::pilot);
  EXPECT_EQ(marks[1].pen.dash, Dash::solid);
}

TEST(Lines, with_oil_under_pressure_a_line_is_coloured_and_thicker) {
  const auto marks = line(corner(), wine);
  EXPECT_EQ(marks[0].pen.colour, wine);
  EXPECT_DOUBLE_EQ(marks[0].pen.width, 0.5);
}

TEST(Lines, a_rod_is_two_lines_half_a_module_apart_with_square_corners) {
  Wire wire = corner();
  wire.mechanical = true;
  const auto marks = line(wire, wine);
  ASSERT_EQ(marks.size(), 2U);
  EXPECT_FALSE(marks[0].pen.colour.has_value());
  EXPECT_THAT(points(marks[0]), ElementsAre(Point{10.5, 5}, Point{10.5, 24.5}, Point{20, 24.5}));
  EXPECT_THAT(points(marks[1]), ElementsAre(Point{9.5, 5}, Point{9.5, 25.5}, Point{20, 25.5}));
}

TEST(Lines, a_junction_is_a_dot_of_three_quarters_of_a_module) {
  std::vector<Mark> marks;
  add_junctions(marks, {{1, 1}}, mapping, {});
  ASSERT_EQ(marks.size(), 1U);
  const auto& dot = std::get<Circle>(marks[0].shape);
  EXPECT_EQ(dot.centre, (Point{12, 7}));
  EXPECT_DOUBLE_EQ(dot.radius, 0.375 * 2.0);
  EXPECT_TRUE(marks[0].pen.filled);
}

std::vector<Mark> arrows(double flow, double length, double greatest = 1e-4) {
  std::vector<Mark> marks;
  add_arrows(marks, {{{{0, 0}, {0, length}}, flow}}, mapping, {.greatest = greatest}, wine);
  return marks;
}

TEST(FlowArrows, point_the_way_the_oil_runs) {
  const auto up = arrows(1e-4, 10), down = arrows(-1e-4, 10);
  ASSERT_EQ(up.size(), 1U);
  // The first point is the tip, the middle of the line is at 5 + 2·5 = 15 mm.
  EXPECT_GT(points(up[0])[0].y, 15.0);
  EXPECT_LT(points(down[0])[0].y, 15.0);
  EXPECT_NEAR(points(up[0])[0].x, 10.0, 1e-12);
  EXPECT_TRUE(up[0].pen.filled);
  EXPECT_EQ(up[0].pen.layer, Layer::flow);
}

TEST(FlowArrows, a_quarter_of_the_flow_has_half_the_length) {
  const ArrowScale scale{.greatest = 1e-4};
  EXPECT_DOUBLE_EQ(scale.length(-0.25e-4), 0.5 * scale.length(1e-4));
  EXPECT_DOUBLE_EQ(scale.length(2e-4), scale.length(1e-4));
}

TEST(FlowArrows, none_where_oil_stands_or_creeps_and_none_in_a_piece_too_short_for_it) {
  EXPECT_TRUE(arrows(0.0, 10).empty());
  EXPECT_TRUE(arrows(1e-9, 10).empty());
  EXPECT_TRUE(arrows(1e-4, 1.5).empty());
  // In a circuit at rest nothing is the greatest flow: what it creeps by is less than a drip.
  EXPECT_TRUE(arrows(1e-10, 10, 1e-10).empty());
}

}  // namespace
}  // namespace poise::draw
