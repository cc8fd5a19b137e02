// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "reference/picture.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "draw/number.hpp"
#include "draw/sheet.hpp"
#include "draw/strokes.hpp"
#include "draw/svg_path.hpp"

namespace poise::reference {
namespace {

constexpr double pixels = 16.0;       // per M on the screen
constexpr double margin = 2.0;        // M, room for the names of ports
constexpr double letter_width = 0.6;  // M, of letters 1 M high
constexpr int decimals = 3;

std::string number(double value) { return draw::plain_number(value, decimals); }

std::string_view look_of(const draw::Pen& pen) {
  if (pen.filled) return "f";
  if (pen.dash == draw::Dash::dashed) return "l d";
  return pen.dash == draw::Dash::chain ? "l c" : "l";
}

std::string drawn(const draw::Mark& mark) {
  return fmt::format("<path class=\"{}\" d=\"{}\"/>\n", look_of(mark.pen),
                     draw::svg_path(mark, 0.0, decimals));
}

/// Whether names under the drawing stand upright, because they are longer than the places are apart.
bool crowded(std::span<const Anchor> anchors, std::span<const std::string_view> names) {
  for (std::size_t i = 0; i + 1 < anchors.size(); ++i) {
    const double apart = std::abs(anchors[i + 1].x - anchors[i].x);
    if (anchors[i].y == anchors[i + 1].y && letter_width * static_cast<double>(names[i].size()) > apart) {
      return true;
    }
  }
  return false;
}

/// Beyond the end of a lead, on the side of the drawing that it ends at.
std::string name_at(const Anchor& anchor, std::string_view name, const draw::Box& all, bool upright) {
  const double left = anchor.x - all.left, right = all.right - anchor.x;
  const double low = anchor.y - all.low, high = all.high - anchor.y;
  const double nearest = std::min({left, right, low, high});
  const auto text = [&](double x, double y, std::string_view from, std::string_view turn) {
    return fmt::format("<text x=\"{}\" y=\"{}\" text-anchor=\"{}\"{}>{}</text>\n", number(x), number(-y),
                       from, turn, name);
  };
  if (nearest == left) return text(anchor.x - 0.5, anchor.y - 0.35, "end", "");
  if (nearest == right) return text(anchor.x + 0.5, anchor.y - 0.35, "start", "");
  if (nearest == high) return text(anchor.x, anchor.y + 0.4, "middle", "");
  if (!upright) return text(anchor.x, anchor.y - 1.25, "middle", "");
  const double x = anchor.x + 0.35, y = anchor.y - 0.4;
  return text(x, y, "end", fmt::format(" transform=\"rotate(-90 {} {})\"", number(x), number(-y)));
}

}  // namespace

draw::Box extent_of(std::span<const Stroke> strokes, std::span<const Anchor> anchors) {
  draw::Box all = draw::extent_of(strokes);
  if (strokes.empty() && !anchors.empty()) all = {anchors[0].x, anchors[0].y, anchors[0].x, anchors[0].y};
  for (const Anchor& a : anchors) all = draw::hull(all, {a.x, a.y, a.x, a.y});
  return all;
}

std::string svg(std::span<const Stroke> strokes, std::span<const Anchor> anchors,
                std::span<const std::string_view> port_names, std::string_view title) {
  const draw::Box all = extent_of(strokes, anchors);
  std::size_t longest = 1;
  for (std::string_view name : port_names) longest = std::max(longest, name.size());
  const double side = std::max(margin, letter_width * static_cast<double>(longest) + 0.8);
  const bool upright = crowded(anchors, port_names);
  const double width = all.width() + 2 * side, height = all.height() + margin + (upright ? side : margin);
  std::string text = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{}\" height=\"{}\" viewBox=\"{} {} {} {}\" "
      "role=\"img\">\n<title>{}</title>\n",
      number(width * pixels), number(height * pixels), number(all.left - side), number(-all.high - margin),
      number(width), number(height), title);
  text +=
      "<style>.l{fill:none;stroke:#1a1a1a;stroke-width:.1;stroke-linecap:round;stroke-linejoin:round}"
      ".d{stroke-dasharray:.6 .3;stroke-linecap:butt}.c{stroke-dasharray:1.4 .3 .1 .3;stroke-linecap:butt}"
      ".f{fill:#1a1a1a}"
      "text{fill:#1a1a1a;font:1px sans-serif}"
      "@media(prefers-color-scheme:dark){.l{stroke:#e6e6e6}.f,text{fill:#e6e6e6}}</style>\n";
  std::vector<draw::Mark> marks;
  draw::add_strokes(marks, strokes, {}, 1.0, {});
  for (const draw::Mark& m : marks) text += drawn(m);
  for (std::size_t i = 0; i < anchors.size(); ++i) text += name_at(anchors[i], port_names[i], all, upright);
  return text + "</svg>\n";
}

}  // namespace poise::reference
