// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/strokes.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <variant>
#include <vector>

#include "parts/symbol_pieces.hpp"

namespace poise::draw {
namespace {

using Form = Stroke::Form;

/// On half a module, with angles of whole fives of degrees, as symbols are.
rc::Gen<Stroke> any_stroke() {
  return rc::gen::exec([] {
    const auto place = [] { return 0.5 * *rc::gen::inRange(-20, 21); };
    const auto size = [] { return 0.5 * *rc::gen::inRange(1, 11); };
    const auto angle = [] { return 5.0 * *rc::gen::inRange(0, 72); };
    Stroke s{*rc::gen::element(Form::line, Form::arrow, Form::box, Form::circle, Form::arc, Form::filled,
                               Form::open, Form::spring, Form::dot),
             place(), place()};
    s.style = *rc::gen::element(Stroke::Style::solid, Stroke::Style::dashed, Stroke::Style::chain);
    switch (s.form) {
      case Form::circle:
        s.x2 = size();
        break;
      case Form::arc:
      case Form::filled:
      case Form::open:
        s.x2 = size(), s.y2 = angle();
        break;
      case Form::dot:
        break;
      default:
        s.x2 = s.x + size(), s.y2 = s.y + size();
    }
    return s;
  });
}

rc::Gen<Turn> any_turn() {
  return rc::gen::build<Turn>(rc::gen::set(&Turn::mirrored),
                              rc::gen::set(&Turn::quarters, rc::gen::inRange(-9, 10)));
}

bool same(const Stroke& a, const Stroke& b) {
  return a.form == b.form && a.style == b.style && a.x == b.x && a.y == b.y && a.x2 == b.x2 && a.y2 == b.y2;
}

/// Rounding of sines and roots of numbers up to 30.
bool near(const Box& a, const Box& b) {
  constexpr double rounding = 1e-12;
  return std::abs(a.left - b.left) < rounding && std::abs(a.low - b.low) < rounding &&
         std::abs(a.right - b.right) < rounding && std::abs(a.high - b.high) < rounding;
}

Box turned_box(const Box& box, Turn turn) {
  const Point a = turned(Point{box.left, box.low}, turn), b = turned(Point{box.right, box.high}, turn);
  return {std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)};
}

Box extent(const Stroke& s) { return extent_of(std::array{s}); }

RC_GTEST_PROP(a_turned_stroke, covers_the_turned_extent, ()) {
  const Stroke s = *any_stroke();
  const Turn turn = *any_turn();
  RC_ASSERT(near(extent(turned(s, turn)), turned_box(extent(s), turn)));
}

RC_GTEST_PROP(a_turned_stroke, is_itself_after_four_quarters, ()) {
  const Stroke s = *any_stroke();
  const Turn quarter{.quarters = 1};
  RC_ASSERT(same(turned(turned(turned(turned(s, quarter), quarter), quarter), quarter), s));
  RC_ASSERT(same(turned(s, Turn{.quarters = 4}), s));
}

RC_GTEST_PROP(a_turned_stroke, is_itself_mirrored_twice, ()) {
  const Stroke s = *any_stroke();
  const Turn mirror{.mirrored = true};
  RC_ASSERT(same(turned(turned(s, mirror), mirror), s));
}

RC_GTEST_PROP(a_turned_stroke, is_mirrored_first_and_then_turned, ()) {
  const Stroke s = *any_stroke();
  const Turn turn = *any_turn();
  const Stroke mirrored = turned(s, Turn{.mirrored = turn.mirrored});
  RC_ASSERT(same(turned(s, turn), turned(mirrored, Turn{.quarters = turn.quarters})));
}

TEST(turned_point, goes_left_to_right_and_then_counterclockwise) {
  EXPECT_EQ(turned(Point{2, 1}, Turn{.mirrored = true}), (Point{-2, 1}));
  EXPECT_EQ(turned(Point{2, 1}, Turn{.quarters = 1}), (Point{-1, 2}));
  EXPECT_EQ(turned(Point{2, 1}, Turn{.mirrored = true, .quarters = 1}), (Point{-1, -2}));
  EXPECT_EQ(turned(Point{2, 1}, Turn{.quarters = -1}), (Point{1, -2}));
}

TEST(turned_angle, of_a_triangle_turns_and_mirrors_with_it) {
  // A triangle that points 30° up to the right points 30° up to the left in the mirror, then down to the
  // left.
  const Stroke s = stroke::filled(0, 0, 1, 30);
  EXPECT_DOUBLE_EQ(turned(s, Turn{.mirrored = true}).y2, 150);
  EXPECT_DOUBLE_EQ(turned(s, Turn{.mirrored = true, .quarters = 1}).y2, 240);
  EXPECT_DOUBLE_EQ(turned(stroke::arc(0, 0, 1, 270), Turn{.quarters = 1}).y2, 0);
}

TEST(extent, of_a_half_circle_leaves_out_its_open_half) {
  EXPECT_EQ(extent(stroke::arc(1, 2, 3, 90)), (Box{-2, -1, 4, 2}));
  EXPECT_EQ(extent(stroke::arc(1, 2, 3, 180)), (Box{1, -1, 4, 5}));
  // Open towards 45°: ends at 135° and 315°, reaching left and down by the radius.
  const double end = 1 / std::sqrt(2.0);
  EXPECT_TRUE(near(extent(stroke::arc(0, 0, 1, 45)), {-1, -1, end, end}));
}

TEST(extent, of_a_triangle_with_equal_sides) {
  // Height 3 pointing up: half its base is 3/√3.
  EXPECT_TRUE(near(extent(stroke::filled(0, 3, 3, 90)), {-std::sqrt(3.0), 0, std::sqrt(3.0), 3}));
}

TEST(extent, of_a_spring_is_its_windings) {
  EXPECT_EQ(extent(stroke::spring(4, 2, 6, 2)), (Box{4, 1.25, 6, 2.75}));
}

TEST(extent, of_an_arrow_holds_its_head) {
  EXPECT_EQ(extent(stroke::arrow(0, 0, 0, 3)), (Box{-0.25, 0, 0.25, 3}));
}

TEST(extent, of_several_strokes_is_around_all_and_of_none_is_nothing) {
  EXPECT_EQ(extent_of(std::array{stroke::line(0, 0, 2, 1), stroke::dot(5, 5)}), (Box{0, 0, 5.375, 5.375}));
  EXPECT_EQ(extent_of({}), Box{});
}

std::vector<Mark> marks_of(std::span<const Stroke> strokes, Point origin, double module, Pen pen = {}) {
  std::vector<Mark> marks;
  add_strokes(marks, strokes, origin, module, pen);
  return marks;
}
const std::vector<Point>& points_of(const Mark& m) { return std::get<Polyline>(m.shape).points; }

TEST(marks, stand_about_the_origin_in_the_size_of_a_module) {
  const auto marks = marks_of(std::array{stroke::circle(2, 1, 3), stroke::box(0, 0, 4, 2)}, {100, 50}, 2.5);
  const Circle& circle = std::get<Circle>(marks.at(0).shape);
  EXPECT_EQ(circle.centre, (Point{105, 52.5}));
  EXPECT_DOUBLE_EQ(circle.radius, 7.5);
  EXPECT_EQ(points_of(marks.at(1)), (std::vector<Point>{{100, 50}, {110, 50}, {110, 55}, {100, 55}}));
  EXPECT_TRUE(std::get<Polyline>(marks.at(1).shape).closed);
}

TEST(marks, lines_that_go_on_are_one_mark_and_a_ring_of_them_is_closed) {
  const auto path = pieces::path(0, 0, 2, 0, 2, 3);
  const auto one = marks_of(path, {}, 1);
  ASSERT_EQ(one.size(), 1U);
  EXPECT_EQ(points_of(one[0]), (std::vector<Point>{{0, 0}, {2, 0}, {2, 3}}));
  const auto ring = marks_of(pieces::path(0, 0, 2, 0, 2, 3, 0, 0), {}, 1);
  ASSERT_EQ(ring.size(), 1U);
  EXPECT_TRUE(std::get<Polyline>(ring[0].shape).closed);
  EXPECT_EQ(points_of(ring[0]).size(), 3U);
  // Another style or another start is another mark.
  EXPECT_EQ(marks_of(std::array{path[0], stroke::dashed(path[1])}, {}, 1).size(), 2U);
  EXPECT_EQ(marks_of(std::array{stroke::line(0, 0, 1, 0), stroke::line(2, 0, 3, 0)}, {}, 1).size(), 2U);
}

TEST(marks, keep_the_pen_and_take_dash_and_filling_from_the_stroke) {
  const Pen pen{.layer = Layer::enclosures, .width = 0.3, .colour = Colour{1, 2, 3}};
  const auto marks =
      marks_of(std::array{stroke::chain(stroke::box(0, 0, 1, 1)), stroke::dashed(stroke::line(0, 0, 1, 0)),
                          stroke::filled(0, 0, 1, 90), stroke::open(0, 0, 1, 90)},
               {}, 1, pen);
  EXPECT_EQ(marks.at(0).pen.dash, Dash::chain);
  EXPECT_EQ(marks.at(1).pen.dash, Dash::dashed);
  EXPECT_EQ(marks.at(0).pen.width, 0.3);
  EXPECT_TRUE(marks.at(2).pen.filled);
  EXPECT_EQ(marks.at(2).pen.width, 0.0);  // its edge is the triangle itself
  EXPECT_FALSE(marks.at(3).pen.filled);
  for (const Mark& m : marks) {
    EXPECT_EQ(m.pen.layer, Layer::enclosures);
    EXPECT_EQ(m.pen.colour, pen.colour);
  }
}

TEST(marks, of_a_half_circle_are_the_half_that_is_not_open) {
  // Open to the right: from the top over the left to the bottom.
  const Arc arc = std::get<Arc>(marks_of(std::array{stroke::arc(0, 0, 2, 0)}, {}, 1).at(0).shape);
  EXPECT_EQ(arc.from, 90);
  EXPECT_EQ(arc.to, 270);
}

RC_GTEST_PROP(marks, lie_in_the_extent_of_their_stroke, ()) {
  const Stroke s = *any_stroke();
  const Box extent_there = extent(s).grown(1e-9);
  for (const Mark& m : marks_of(std::array{s}, {}, 1)) {
    if (!std::holds_alternative<Polyline>(m.shape)) continue;
    for (const Point& p : points_of(m)) {
      RC_ASSERT(p.x >= extent_there.left && p.x <= extent_there.right);
      RC_ASSERT(p.y >= extent_there.low && p.y <= extent_there.high);
    }
  }
}

}  // namespace
}  // namespace poise::draw
