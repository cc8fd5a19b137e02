// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/svg.hpp"

#include <fmt/format.h>

#include <array>
#include <span>
#include <utility>

#include "draw/layers.hpp"
#include "draw/number.hpp"
#include "draw/svg_path.hpp"

namespace poise::draw {
namespace {

constexpr int decimals = 2;              // a hundredth of a millimetre
const double usual_width = Pen{}.width;  // said once for the whole sheet

std::string number(double value) { return plain_number(value, decimals); }

bool is_text(const Mark& mark) { return std::holds_alternative<Text>(mark.shape); }

bool same(const Pen& a, const Pen& b) {
  return a.layer == b.layer && a.width == b.width && a.dash == b.dash && a.filled == b.filled &&
         a.colour == b.colour;
}

std::string colour_of(const Pen& pen) {
  if (!pen.colour) return "currentColor";
  return fmt::format("#{:02x}{:02x}{:02x}", pen.colour->red, pen.colour->green, pen.colour->blue);
}

template <std::size_t N>
std::string dashes(const std::array<double, N>& in_widths, double width) {
  std::string text;
  for (const double length : in_widths) text += (text.empty() ? "" : " ") + number(length * width);
  // Round ends would lengthen every dash by the line's width.
  return fmt::format(" stroke-dasharray=\"{}\" stroke-linecap=\"butt\"", text);
}

/// What a pen does otherwise than the sheet as a whole.
std::string look_of(const Pen& pen) {
  std::string text = fmt::format(" class=\"{}\"", name_of(pen.layer));
  if (pen.filled) text += fmt::format(" fill=\"{}\"", colour_of(pen));
  if (pen.width <= 0.0) return text + " stroke=\"none\"";
  if (pen.colour) text += fmt::format(" stroke=\"{}\"", colour_of(pen));
  if (pen.width != usual_width) text += fmt::format(" stroke-width=\"{}\"", number(pen.width));
  if (pen.dash == Dash::dashed) text += dashes(short_dashes, pen.width);
  if (pen.dash == Dash::chain) text += dashes(long_dash_dot, pen.width);
  return text;
}

std::string_view anchor_of(Text::Stands stands) {
  if (stands == Text::Stands::middle) return " text-anchor=\"middle\"";
  return stands == Text::Stands::right ? " text-anchor=\"end\"" : "";
}

std::string text_of(const Text& text, double top) {
  const std::string x = number(text.at.x), y = number(top - text.at.y);
  return fmt::format("<text x=\"{}\" y=\"{}\" font-size=\"{}\"{}{}{}>{}</text>\n", x, y, number(text.height),
                     anchor_of(text.stands), text.bold ? " font-weight=\"bold\"" : "",
                     text.upright ? fmt::format(" transform=\"rotate(-90 {} {})\"", x, y) : "",
                     xml_text(text.words));
}

/// Lines of one pen make one path. Filled shapes stay apart: where two overlap, one path could leave a hole.
std::string marks_of_one_pen(std::span<const Mark> marks, double top) {
  const Pen& pen = marks.front().pen;
  if (is_text(marks.front())) {
    std::string text =
        fmt::format("<g class=\"{}\" fill=\"{}\" stroke=\"none\">\n", name_of(pen.layer), colour_of(pen));
    for (const Mark& m : marks) text += text_of(std::get<Text>(m.shape), top);
    return text + "</g>\n";
  }
  const std::string look = look_of(pen);
  std::string text, way;
  for (const Mark& m : marks) {
    way += svg_path(m, top, decimals);
    if (pen.filled) text += fmt::format("<path{} d=\"{}\"/>\n", look, std::exchange(way, {}));
  }
  return pen.filled ? text : fmt::format("<path{} d=\"{}\"/>\n", look, way);
}

std::string group_of(const Group& group, double top) {
  std::string text = fmt::format("<g class=\"{}\"", xml_text(group.kind));
  if (!group.name.empty()) text += fmt::format(" data-name=\"{}\"", xml_text(group.name));
  text += ">\n";
  if (!group.title.empty()) text += fmt::format("<title>{}</title>\n", xml_text(group.title));
  const std::span<const Mark> marks = group.marks;
  for (std::size_t first = 0, past = 0; first < marks.size(); first = past) {
    const auto goes_on = [&](const Mark& m) {
      return is_text(m) == is_text(marks[first]) && same(m.pen, marks[first].pen);
    };
    while (past < marks.size() && goes_on(marks[past])) ++past;
    text += marks_of_one_pen(marks.subspan(first, past - first), top);
  }
  return text + "</g>\n";
}

}  // namespace

std::string svg(const Sheet& sheet) {
  const std::string width = number(sheet.width), height = number(sheet.height);
  std::string text = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 0 {0} {1}\" "
      "role=\"img\" color=\"#000\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"{2}\" "
      "stroke-linecap=\"round\" stroke-linejoin=\"round\" "
      "font-family=\"Liberation Sans, Arial, Helvetica, sans-serif\">\n",
      width, height, number(usual_width));
  text += fmt::format("<title>{}</title>\n", xml_text(sheet.title));
  text += fmt::format("<desc>{}</desc>\n", xml_text(sheet.description));
  text += fmt::format("<rect class=\"paper\" width=\"{}\" height=\"{}\" fill=\"#fff\" stroke=\"none\"/>\n",
                      width, height);
  for (const Group& group : sheet.groups) text += group_of(group, sheet.height);
  return text + "</svg>\n";
}

}  // namespace poise::draw
