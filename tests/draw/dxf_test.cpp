// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/dxf.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "draw/dxf_text.hpp"
#include "draw/sample_sheet.hpp"
#include "draw/triangles.hpp"

namespace poise::draw {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(dxf_text, writes_signs_outside_ascii_by_code) {
  EXPECT_EQ(dxf_text("40 °C"), "40 %%dC");
  EXPECT_EQ(dxf_text("± 5 %"), "%%p 5 %");
  EXPECT_EQ(dxf_text("⌀ 32"), "%%c 32");
  EXPECT_EQ(dxf_text("Δp, ø"), R"(\U+0394p, \U+00F8)");
  EXPECT_EQ(dxf_text("\xF0\x9D\x9C\x82"), R"(\U+D835\U+DF02)");  // U+1D702, as a pair of UTF-16
}

TEST(dxf_text, guards_what_would_be_taken_for_a_code) {
  EXPECT_EQ(dxf_text(R"(\U+0041)"), R"(\U+005CU+0041)");
  EXPECT_EQ(dxf_text(R"(a\b)"), R"(a\b)");
  EXPECT_EQ(dxf_text("a^b"), "a^ b");
  EXPECT_EQ(dxf_text("5 %%d"), "5 %%%%%%d");  // "%%%" is a percent sign
  EXPECT_EQ(dxf_text("a\nb"), "a b");         // a line of its own would be the next group's code
}

TEST(dxf_text, holds_no_more_than_a_line_of_release_12) {
  EXPECT_EQ(dxf_text(std::string(255, 'x')), std::string(255, 'x'));
  EXPECT_EQ(dxf_text(std::string(256, 'x')), std::string(252, 'x') + "...");
  std::string omegas;
  for (int i = 0; i < 100; ++i) omegas += "Ω";
  const std::string text = dxf_text(omegas);
  EXPECT_LE(text.size(), 255U);
  EXPECT_THAT(text, testing::EndsWith(R"(\U+03A9...)"));
}

TEST(dxf_colour, is_the_nearest_number) {
  // The first of each hue is full: red 10, yellow 50, green 90, blue 170 (order of the wheel, from memory).
  EXPECT_EQ(dxf_colour({255, 0, 0}), 10);
  EXPECT_EQ(dxf_colour({255, 255, 0}), 50);
  EXPECT_EQ(dxf_colour({0, 255, 0}), 90);
  EXPECT_EQ(dxf_colour({0, 0, 255}), 170);
  EXPECT_EQ(dxf_colour({255, 255, 255}), 255);
}

TEST(dxf, is_ascii_whatever_the_texts) {
  const std::string text = dxf(sample::sheet(Paper::a4));
  EXPECT_TRUE(
      std::all_of(text.begin(), text.end(), [](char c) { return c == '\n' || (c >= 32 && c < 127); }));
}

TEST(dxf, ink_has_no_colour_of_its_own) {
  Sheet sheet = blank(Paper::a4);
  sheet.groups = {{.kind = "line", .name = "", .title = "", .marks = {{{}, Polyline{{{0, 0}, {1, 1}}}}}}};
  const std::string text = dxf(sheet), entities = text.substr(text.find("ENTITIES"));
  EXPECT_THAT(entities, HasSubstr("LINE\n  8\nsymbols\n 10\n0.0\n"));
  EXPECT_THAT(entities, Not(HasSubstr("\n 62\n")));
}

double area(const Triangle& t) {
  return 0.5 * ((t[1].x - t[0].x) * (t[2].y - t[0].y) - (t[1].y - t[0].y) * (t[2].x - t[0].x));
}

TEST(triangles, of_a_hollow_shape_fill_it_and_nothing_else) {
  // An arrow: shaft 10 × 4, head 6 × 10: its area is 40 + 30.
  const std::vector<Point> arrow{{80, 18}, {90, 18}, {90, 15}, {96, 20}, {90, 25}, {90, 22}, {80, 22}};
  double sum = 0.0;
  const std::vector<Triangle> all = triangles_of(arrow);
  for (const Triangle& t : all) {
    EXPECT_GT(area(t), 0.0);
    sum += area(t);
  }
  EXPECT_EQ(all.size(), arrow.size() - 2);
  EXPECT_DOUBLE_EQ(sum, 10 * 4 + 0.5 * 6 * 10);
}

RC_GTEST_PROP(triangles, of_a_star_add_up_to_its_area, ()) {
  // A shape seen whole from its middle: its area is the sum of the triangles from there to its edges.
  const auto reaches = *rc::gen::container<std::vector<int>>(rc::gen::inRange(1, 20));
  RC_PRE(reaches.size() >= 3U);
  const bool clockwise = *rc::gen::arbitrary<bool>();
  const double step = 2 * std::acos(-1.0) / static_cast<double>(reaches.size());
  std::vector<Point> star;
  double expected = 0.0;
  for (std::size_t i = 0; i < reaches.size(); ++i) {
    const double angle = step * static_cast<double>(i);
    star.push_back({reaches[i] * std::cos(angle), reaches[i] * std::sin(angle)});
    expected += 0.5 * reaches[i] * reaches[(i + 1) % reaches.size()] * std::sin(step);
  }
  if (clockwise) std::reverse(star.begin(), star.end());
  double sum = 0.0;
  for (const Triangle& t : triangles_of(star)) sum += area(t);
  RC_ASSERT(std::abs(sum - expected) < 1e-9 * (1 + expected));
}

}  // namespace
}  // namespace poise::draw
