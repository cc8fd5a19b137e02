// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/marks.hpp"

#include <algorithm>
#include <array>
#include <functional>
#include <numeric>

#include "draw/letters.hpp"

namespace poise::draw {
namespace {

/// Colours that differ for every kind of sight and have different greys: M. Okabe and K. Ito, Color Universal
/// Design (2002), from memory; without the yellow, which white paper swallows.
constexpr std::array curve_colours{Colour{0, 114, 178}, Colour{213, 94, 0},    Colour{0, 0, 0},
                                   Colour{0, 158, 115}, Colour{204, 121, 167}, Colour{86, 180, 233},
                                   Colour{230, 159, 0}};
constexpr std::array curve_dashes{Dash::solid, Dash::dashed, Dash::chain};
constexpr double curve_width = 0.4, tick_size = 0.8;

/// Begins a character, rather than goes on with it.
bool begins(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; }

}  // namespace

Mark line(Point from, Point to, const Pen& pen) { return {pen, Polyline{{from, to}, false}}; }

Mark polyline(std::vector<Point> points, const Pen& pen) { return {pen, Polyline{std::move(points), false}}; }

Mark rectangle(const Box& box, const Pen& pen) {
  return {pen,
          Polyline{{{box.left, box.low}, {box.right, box.low}, {box.right, box.high}, {box.left, box.high}},
                   true}};
}

Mark words(Point at, std::string text, double height, Text::Stands stands, const Pen& pen) {
  return {pen, Text{.at = at, .words = std::move(text), .height = height, .stands = stands}};
}

Box box_of(const Text& text) {
  const double width = text_width(text.words, text.height, text.bold);
  const double before = text.stands == Text::Stands::left     ? 0.0
                        : text.stands == Text::Stands::middle ? 0.5 * width
                                                              : width;
  const double under = 0.22 * text.height, over = 0.75 * text.height;
  if (text.upright)
    return {text.at.x - over, text.at.y - before, text.at.x + under, text.at.y - before + width};
  return {text.at.x - before, text.at.y - under, text.at.x - before + width, text.at.y + over};
}

std::vector<Box> text_boxes(const Sheet& sheet) {
  std::vector<Box> boxes;
  for (const Group& group : sheet.groups) {
    for (const Mark& mark : group.marks) {
      if (const auto* text = std::get_if<Text>(&mark.shape)) boxes.push_back(box_of(*text));
    }
  }
  return boxes;
}

std::string cut(std::string_view text, double width, double height) {
  if (text_width(text, height) <= width) return std::string(text);
  std::string kept(text);
  while (!kept.empty() && text_width(kept + "…", height) > width) {
    while (!kept.empty() && !begins(kept.back())) kept.pop_back();
    if (!kept.empty()) kept.pop_back();
  }
  return kept + "…";
}

std::vector<std::string> broken(std::string_view text, double width, double height, std::size_t most) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const auto blank = text.find(' ');
    const std::string word(text.substr(0, blank));
    text.remove_prefix(blank == std::string_view::npos ? text.size() : blank + 1);
    if (word.empty()) continue;
    if (!lines.empty() && (text_width(lines.back() + " " + word, height) <= width || lines.size() == most)) {
      lines.back() += " " + word;
    } else {
      lines.push_back(word);
    }
  }
  for (std::string& each : lines) each = cut(each, width, height);
  return lines;
}

Style style_of(int curve) {
  const auto pick = [curve](const auto& list) { return list[static_cast<std::size_t>(curve) % list.size()]; };
  constexpr std::array ticks{Style::Tick::none, Style::Tick::ring, Style::Tick::square,
                             Style::Tick::triangle};
  return {.pen = {.layer = Layer::chart,
                  .width = curve_width,
                  .dash = pick(curve_dashes),
                  .colour = pick(curve_colours)},
          .tick = pick(ticks)};
}

std::vector<Mark> tick_at(Point at, const Style& style) {
  Pen pen = style.pen;
  pen.dash = Dash::solid;
  pen.width = 0.25;
  const double r = tick_size;
  switch (style.tick) {
    case Style::Tick::none:
      return {};
    case Style::Tick::ring:
      return {{pen, Circle{at, r}}};
    case Style::Tick::square:
      return {rectangle({at.x - 0.85 * r, at.y - 0.85 * r, at.x + 0.85 * r, at.y + 0.85 * r}, pen)};
    case Style::Tick::triangle:
      return {
          {pen, Polyline{{{at.x - r, at.y - 0.7 * r}, {at.x + r, at.y - 0.7 * r}, {at.x, at.y + r}}, true}}};
  }
  return {};
}

std::vector<double> spread(const std::vector<double>& wanted, double pitch, double low, double high) {
  std::vector<std::size_t> order(wanted.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, std::greater{}, [&](std::size_t i) { return wanted[i]; });
  std::vector<double> at(wanted.size());
  double free = high;
  for (const std::size_t i : order) {
    at[i] = std::min(std::max(wanted[i], low), free);
    free = at[i] - pitch;
  }
  double floor = low;
  for (auto i = order.rbegin(); i != order.rend(); ++i) {
    at[*i] = std::max(at[*i], floor);
    floor = at[*i] + pitch;
  }
  return at;
}

}  // namespace poise::draw
