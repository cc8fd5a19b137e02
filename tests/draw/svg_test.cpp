// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/svg.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "draw/number.hpp"
#include "draw/sample_sheet.hpp"
#include "draw/svg_path.hpp"
#include "parts/kind.hpp"

namespace poise::draw {
namespace {

using testing::HasSubstr;
using testing::Not;

Sheet sheet_of(std::vector<Mark> marks) {
  Sheet sheet{.width = 100, .height = 50, .title = "T", .description = "D", .groups = {}};
  sheet.groups.push_back({.kind = "part", .name = "V1", .title = "", .marks = std::move(marks)});
  return sheet;
}
std::string path(const Mark& mark) { return svg_path(mark, 10.0, 2); }

TEST(plain_number, has_no_trailing_zeros_and_no_negative_zero) {
  EXPECT_EQ(plain_number(2.0, 2), "2");
  EXPECT_EQ(plain_number(2.5, 2), "2.5");
  EXPECT_EQ(plain_number(100.0, 2), "100");
  EXPECT_EQ(plain_number(100.0, 0), "100");
  EXPECT_EQ(plain_number(-0.001, 2), "0");
  EXPECT_EQ(plain_number(-1.239, 2), "-1.24");
}

TEST(svg_path, counts_y_down_from_the_top) {
  EXPECT_EQ(path({{}, Polyline{{{0, 0}, {3, 0}, {3, 4}, {5, 5}}}}), "M0 10H3V6L5 5");
  EXPECT_EQ(path({{}, Polyline{{{0, 0}, {3, 0}, {3, 4}}, true}}), "M0 10H3V6Z");
}

TEST(svg_path, of_an_arc_goes_counterclockwise_from_its_first_angle) {
  // A quarter about (5, 5) with radius 2: from its right-hand end up to its top; flag 0 is counterclockwise.
  EXPECT_EQ(path({{}, Arc{{5, 5}, 2, 0, 90}}), "M7 5A2 2 0 0 0 5 3");
  // The other three quarters ask for the long way round.
  EXPECT_EQ(path({{}, Arc{{5, 5}, 2, 90, 360}}), "M5 3A2 2 0 1 0 7 5");
  EXPECT_EQ(path({{}, Arc{{5, 5}, 2, 300, 60}}), "M6 6.73A2 2 0 0 0 6 3.27");
}

TEST(svg_path, of_a_circle_is_two_halves) {
  EXPECT_EQ(path({{}, Circle{{5, 5}, 2}}), "M7 5A2 2 0 0 0 3 5A2 2 0 0 0 7 5Z");
  EXPECT_EQ(path({{}, Arc{{5, 5}, 2, 0, 360}}), "M7 5A2 2 0 0 0 3 5A2 2 0 0 0 7 5Z");
}

TEST(svg, is_in_real_millimetres_black_on_white_paper) {
  const std::string text = svg(sheet_of({}));
  EXPECT_THAT(text, HasSubstr("width=\"100mm\" height=\"50mm\" viewBox=\"0 0 100 50\""));
  EXPECT_THAT(text, HasSubstr("color=\"#000\""));
  EXPECT_THAT(text, HasSubstr("<rect class=\"paper\" width=\"100\" height=\"50\" fill=\"#fff\""));
  EXPECT_THAT(text, HasSubstr("role=\"img\""));
  EXPECT_THAT(text, HasSubstr("<title>T</title>\n<desc>D</desc>"));
}

TEST(svg, spells_out_signs_of_xml) {
  Sheet sheet = sheet_of({{{}, Text{.words = R"(<a> & "b" 'c')"}}});
  sheet.groups[0].name = "\"1\"";
  const std::string text = svg(sheet);
  EXPECT_THAT(text, HasSubstr(">&lt;a&gt; &amp; &quot;b&quot; &#39;c&#39;</text>"));
  EXPECT_THAT(text, HasSubstr("data-name=\"&quot;1&quot;\""));
}

TEST(svg, replaces_what_no_xml_may_hold) {
  EXPECT_EQ(xml_text("a\x01"
                     "b\tc"),
            "a b c");
  EXPECT_EQ(xml_text("a\xFFz"), "a\xEF\xBF\xBDz");
  EXPECT_EQ(xml_text("µ → °"), "µ → °");
}

TEST(svg, draws_pilot_lines_in_short_dashes_and_enclosures_in_dash_and_dot) {
  const Polyline line{{{0, 0}, {9, 0}}};
  const std::string text =
      svg(sheet_of({{{.layer = Layer::pilot, .width = 0.5, .dash = Dash::dashed}, line},
                    {{.layer = Layer::enclosures, .width = 0.5, .dash = Dash::chain}, line}}));
  EXPECT_THAT(text, HasSubstr("<path class=\"pilot\" stroke-width=\"0.5\" stroke-dasharray=\"3 1.5\""));
  EXPECT_THAT(
      text, HasSubstr("<path class=\"enclosures\" stroke-width=\"0.5\" stroke-dasharray=\"7 1.5 0.5 1.5\""));
}

TEST(svg, lines_of_one_pen_share_a_path_and_filled_shapes_do_not) {
  const Polyline line{{{0, 0}, {9, 0}}};
  EXPECT_THAT(svg(sheet_of({{{}, line}, {{}, line}})), HasSubstr("d=\"M0 50H9M0 50H9\""));
  const Pen filled{.width = 0.0, .filled = true};
  const std::string text = svg(sheet_of({{filled, Circle{{5, 5}, 1}}, {filled, Circle{{5, 5}, 2}}}));
  EXPECT_THAT(text, HasSubstr("Z\"/>\n<path class=\"symbols\" fill=\"currentColor\" stroke=\"none\""));
}

TEST(svg, shows_a_colour_where_a_pen_has_one) {
  const Colour blue{30, 90, 160};
  const std::string text = svg(sheet_of({{{.colour = blue}, Polyline{{{0, 0}, {9, 0}}}}}));
  EXPECT_THAT(text, HasSubstr("stroke=\"#1e5aa0\""));
}

TEST(svg, turns_upright_text_about_its_own_place) {
  const std::string text = svg(sheet_of({{{}, Text{.at = {20, 10}, .words = "x", .upright = true}}}));
  EXPECT_THAT(
      text, HasSubstr("<text x=\"20\" y=\"40\" font-size=\"2.5\" transform=\"rotate(-90 20 40)\">x</text>"));
}

TEST(svg, of_sixty_parts_stays_under_300_kilobytes) {
  // Sixty symbols of every kind in turn, each with six lines of text and two lines of five corners.
  Sheet sheet = sample::sheet(Paper::a3);
  for (std::size_t i = 0; i < 60; ++i) {
    const Kind& kind = all_kinds()[i % all_kinds().size()];
    const Point at{20.123 + 5 * static_cast<double>(i), 100.456};
    Group group{
        .kind = "part", .name = "a part's tag", .title = std::string(kind.about.sentence), .marks = {}};
    add_strokes(group.marks, kind.symbol, at, 2.0, {});
    for (int row = 0; row < 6; ++row) {
      group.marks.push_back({{.layer = Layer::labels}, Text{.at = at, .words = "a line of data, 350 bar"}});
    }
    for (const Layer layer : {Layer::working, Layer::pilot}) {
      group.marks.push_back({{.layer = layer, .width = 0.3, .dash = Dash::dashed, .colour = Colour{1, 2, 3}},
                             Polyline{{at, {1.23, 4.56}, {7.89, 0.12}, {3.45, 6.78}, {9.01, 2.34}}}});
    }
    sheet.groups.push_back(group);
  }
  EXPECT_LT(svg(sheet).size(), 300'000U);
}

}  // namespace
}  // namespace poise::draw
