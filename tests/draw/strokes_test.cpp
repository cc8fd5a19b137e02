// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/strokes.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

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

}  // namespace
}  // namespace poise::draw
