// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/letters.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <string>

#include "draw/utf8.hpp"

namespace poise::draw {
namespace {

struct Measured {
  std::string_view text;
  double regular, bold;  // at 100 units of font size
};
// Measured in Chromium with Liberation Sans 2.1, letters moved closer in pairs as the font asks.
constexpr std::array labels{
    Measured{"V12", 177.94, 177.94},
    Measured{"SV1", 189.02, 189.02},
    Measured{"P", 66.70, 66.70},
    Measured{"M2", 138.92, 138.92},
    Measured{"1-H2.3", 300.16, 300.16},
    Measured{"350 bar", 339.17, 350.25},
    Measured{"700 bar", 339.17, 350.25},
    Measured{"10,000 psi", 461.48, 478.12},
    Measured{"2.4 L/min", 411.33, 433.45},
    Measured{"0.45 gal/min", 544.78, 572.47},
    Measured{"40 °C", 251.23, 251.23},
    Measured{"ISO VG 32, 40 °C", 790.34, 790.34},
    Measured{"⌀ 50/32 × 200 mm", 813.44, 824.67},
    Measured{"swing clamp C3", 705.81, 755.77},
    Measured{"Work support, left", 781.80, 853.72},
    Measured{"Relief valve V1", 667.00, 700.45},
    Measured{"1.5 kW, 1450 1/min", 856.02, 878.28},
    Measured{"cracks at 210 bar ± 5 %", 1049.81, 1094.48},
    Measured{"filter 10 µm", 496.64, 530.03},
    Measured{"hand pump, two stages", 1033.98, 1111.19},
    Measured{"Reservoir 10 L", 650.30, 689.27},
    Measured{"circuit at rest", 566.80, 628.03},
    Measured{"at 2.40 s, step clamp", 922.72, 972.72},
    Measured{"Frame lift for bogies, bay 3", 1183.84, 1272.52},
    Measured{"Oil under pressure can kill", 1156.06, 1256.02},
    Measured{"pressure at C2 never above 350 bar (362 bar at 2.41 s)", 2445.91, 2551.38},
    Measured{"Ventil für Spannzylinder", 1050.64, 1139.06},
    Measured{"Vérin à simple effet", 854.16, 917.00},
    Measured{"AVAVAVA TATATA WAWA", 1122.38, 1172.03},
    Measured{"Tools", 233.45, 259.23},
    Measured{"AWAY Ty.", 429.75, 440.92},
    Measured{"11111111", 444.92, 444.92},
    Measured{"ijlijl", 133.31, 166.70},
    Measured{"WWWWMMMM", 710.75, 710.75},
    Measured{"@@@", 304.55, 292.53},
    Measured{"jobs/frame_lift.toml", 839.17, 922.38},
    Measured{"Poise 0.1.0", 500.34, 517.00},
    Measured{"3.0 cm³/rev", 500.11, 522.56},
    Measured{"η = 0.92", 364.22, 369.69},
    Measured{"Δp = 12 bar", 519.92, 541.56},
    Measured{"p ≤ 350 bar", 505.23, 521.78},
    Measured{"2–12 L/min", 494.78, 516.91},
    Measured{"K = 2·A", 330.77, 341.80},
    Measured{"0.5 gal", 300.25, 311.28},
    Measured{"7.5 kN → 10 kN", 705.81, 717.05},
    Measured{"sequence valve, opens at 180 bar", 1501.08, 1584.14},
    Measured{"\"quoted\" 'text'", 604.02, 681.25},
    Measured{"f(x) = {a[1]}; #5 & 7", 836.62, 880.86},
    Measured{"Q*R^2 ~ ", 405.42, 416.91},
    Measured{"LLLLL", 278.08, 305.42},
    Measured{"kkkkk", 250.00, 278.08},
    Measured{"ttttt", 138.92, 166.52},
    Measured{"fffff", 131.70, 166.52},
    Measured{"rrrrr", 166.52, 194.59},
};

TEST(text_width, is_never_less_than_the_letters_take_and_at_most_12_percent_more) {
  constexpr double pixel_share = 0.05;  // Chromium counts in 64ths of a pixel
  for (const Measured& label : labels) {
    const double regular = text_width(label.text, 100), bold = text_width(label.text, 100, true);
    EXPECT_GE(regular, label.regular - pixel_share) << label.text;
    EXPECT_LE(regular, 1.12 * label.regular) << label.text;
    EXPECT_GE(bold, label.bold - pixel_share) << label.text;
    EXPECT_LE(bold, 1.12 * label.bold) << label.text;
  }
}

TEST(text_width, grows_with_the_font) {
  EXPECT_DOUBLE_EQ(text_width("350 bar", 5.0), 2 * text_width("350 bar", 2.5));
  EXPECT_EQ(text_width("", 2.5), 0.0);
}

TEST(fitted, keeps_its_size_where_there_is_room) {
  const Fitted fit = fitted("Bush press", {.width = 100, .size = 5, .least = 2});
  EXPECT_EQ(fit.size, 5);
  EXPECT_EQ(fit.lines, (std::vector<std::string>{"Bush press"}));
}

TEST(fitted, gets_smaller_before_it_takes_a_second_line) {
  const double room = 0.8 * text_width("Bush press", 5);
  const Fitted fit = fitted("Bush press", {.width = room, .size = 5, .least = 2, .most_lines = 2});
  EXPECT_LT(fit.size, 5);
  EXPECT_EQ(fit.lines.size(), 1U);
}

TEST(fitted, breaks_at_blanks_and_ends_in_dots_where_nothing_helps) {
  const double room = 1.05 * text_width("Frame lift", 2);
  const Place place{.width = room, .size = 2, .least = 2, .most_lines = 2};
  EXPECT_EQ(fitted("Frame lift bay three", place).lines,
            (std::vector<std::string>{"Frame lift", "bay three"}));
  EXPECT_EQ(fitted("Frame lift bay three of five", place).lines,
            (std::vector<std::string>{"Frame lift", "bay thr…"}));
}

TEST(fitted, a_cut_line_shows_as_much_of_a_long_word_as_fits) {
  const Place place{.width = text_width("from a/long…", 2), .size = 2, .least = 2};
  EXPECT_EQ(fitted("from a/longer/path/to/a/file.toml", place).lines,
            (std::vector<std::string>{"from a/long…"}));
}

RC_GTEST_PROP(fitted, never_leaves_its_place_nor_breaks_a_character, ()) {
  const auto parts = *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
      "W", "i", " ", "°", "Ω", "clamp", "→", "\xF0\x9D\x9C\x82", "  ", "jobs/frame_lift.toml"));
  std::string text;
  for (const std::string& part : parts) text += part;
  Place place{.width = *rc::gen::inRange(15, 60) * 1.0, .size = 5, .least = 2};
  place.most_lines = static_cast<std::size_t>(*rc::gen::inRange(1, 4));
  place.bold = *rc::gen::arbitrary<bool>();
  const Fitted fit = fitted(text, place);
  RC_ASSERT(fit.lines.size() >= 1U && fit.lines.size() <= place.most_lines);
  RC_ASSERT(fit.size >= place.least && fit.size <= place.size);
  for (const std::string& line : fit.lines) {
    RC_ASSERT(text_width(line, fit.size, place.bold) <= place.width + 1e-9);
    RC_ASSERT(sound(line) == line);
  }
}

TEST(utf8, what_is_broken_comes_out_as_one_sign_a_byte) {
  EXPECT_EQ(sound("a\xC3"), "a\xEF\xBF\xBD");                                // cut short
  EXPECT_EQ(sound("\xC0\xAF"), "\xEF\xBF\xBD\xEF\xBF\xBD");                  // longer than need be
  EXPECT_EQ(sound("\xED\xA0\x80"), "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD");  // half of a pair
  EXPECT_EQ(sound("\xF0\x9D\x9C\x82 µ → °\n"), "\xF0\x9D\x9C\x82 µ → ° ");
}

}  // namespace
}  // namespace poise::draw
