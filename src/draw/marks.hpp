// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "draw/sheet.hpp"

namespace poise::draw {

/// Pens of the charts. What tells curves apart on a screen is their colour; in grey print it is their dashes
/// and their marks.
namespace pens {
inline constexpr Colour grey{150, 150, 150}, pale{205, 205, 205}, blue{0, 114, 178}, sky{86, 180, 233};
inline constexpr Pen ink{.layer = Layer::chart, .width = 0.2};
inline constexpr Pen thin{.layer = Layer::chart, .width = 0.13};
inline constexpr Pen grid{.layer = Layer::chart, .width = 0.1, .colour = pale};
inline constexpr Pen limit{.layer = Layer::chart, .width = 0.18, .dash = Dash::dashed};
inline constexpr Pen letters{.layer = Layer::labels};
inline constexpr Pen quiet{.layer = Layer::labels, .colour = Colour{90, 90, 90}};
}  // namespace pens

Mark line(Point from, Point to, const Pen& pen);
Mark polyline(std::vector<Point> points, const Pen& pen);
Mark rectangle(const Box& box, const Pen& pen);
Mark words(Point at, std::string text, double height, Text::Stands stands, const Pen& pen = pens::letters);

/// What a text covers on the paper.
Box box_of(const Text& text);
/// The boxes of all texts of a sheet, for those who must keep clear of them.
std::vector<Box> text_boxes(const Sheet& sheet);

/// The text broken into lines no wider than `width`, at most `most` of them; what does not fit ends in "…".
std::vector<std::string> broken(std::string_view text, double width, double height, std::size_t most);
/// The text, cut to a width with "…" where it is longer.
std::string cut(std::string_view text, double width, double height);

/// How a curve is drawn: the pen, and the mark it carries. Twelve in a row differ without colour.
struct Style {
  Pen pen;
  enum class Tick { none, ring, square, triangle } tick = Tick::none;
};
Style style_of(int curve);
/// The mark of a style at a place.
std::vector<Mark> tick_at(Point at, const Style& style);

/// Heights from top to bottom for labels that want to stand at `wanted`, no two nearer than `pitch`, all
/// between `low` and `high` where there is room for them.
std::vector<double> spread(const std::vector<double>& wanted, double pitch, double low, double high);

}  // namespace poise::draw
