// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "reference/picture.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace poise::reference {
namespace {

constexpr double pixels = 16.0;       // per M on the screen
constexpr double margin = 2.0;        // M, room for the names of ports
constexpr double letter_width = 0.6;  // M, of letters 1 M high
constexpr double head_length = 0.9, head_width = 0.5;
constexpr double spring_half_width = 0.75;
constexpr double legs_per_module = 2.0;

struct Point {
  double x, y;
};

Point polar(double degrees, double length) {
  const double angle = degrees * std::numbers::pi / 180.0;
  return {length * std::cos(angle), length * std::sin(angle)};
}

/// In the picture y runs down. Three decimals, without trailing zeros and without a negative zero.
std::string number(double value) {
  std::string text = fmt::format("{:.3f}", value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text == "-0" ? "0" : text;
}
std::string at(const Point& p) { return number(p.x) + "," + number(-p.y); }

std::string line(const Point& from, const Point& to) { return fmt::format("M{} L{}", at(from), at(to)); }

std::string triangle(const Point& tip, double towards, double height, double half_base) {
  const Point along = polar(towards, height), across = polar(towards + 90, half_base);
  const Point base{tip.x - along.x, tip.y - along.y};
  return fmt::format("M{} L{} L{} Z", at(tip), at({base.x + across.x, base.y + across.y}),
                     at({base.x - across.x, base.y - across.y}));
}

std::string zigzag(const Point& from, const Point& to) {
  const double dx = to.x - from.x, dy = to.y - from.y, length = std::hypot(dx, dy);
  const int legs = std::max(4, static_cast<int>(length * legs_per_module));
  std::string way = "M" + at(from);
  for (int i = 0; i < legs; ++i) {
    const double along = (i + 0.5) / legs, side = i % 2 == 0 ? spring_half_width : -spring_half_width;
    way += " L" + at({from.x + along * dx - side * dy / length, from.y + along * dy + side * dx / length});
  }
  return way + " L" + at(to);
}

std::string circle(const Point& centre, double radius) {
  const Point right{centre.x + radius, centre.y}, left{centre.x - radius, centre.y};
  const std::string r = number(radius);
  return fmt::format("M{} A{},{} 0 0 0 {} A{},{} 0 0 0 {} Z", at(right), r, r, at(left), r, r, at(right));
}

std::string half_circle(const Point& centre, double radius, double open_towards) {
  const Point a = polar(open_towards + 90, radius), b = polar(open_towards - 90, radius);
  const std::string r = number(radius);
  return fmt::format("M{} A{},{} 0 0 0 {}", at({centre.x + a.x, centre.y + a.y}), r, r,
                     at({centre.x + b.x, centre.y + b.y}));
}

std::string box(const Stroke& s) {
  return fmt::format("M{} L{} L{} L{} Z", at({s.x, s.y}), at({s.x2, s.y}), at({s.x2, s.y2}), at({s.x, s.y2}));
}

std::string_view look_of(Stroke::Style style) {
  if (style == Stroke::Style::dashed) return "l d";
  if (style == Stroke::Style::chain) return "l c";
  return "l";
}

std::string drawn(std::string_view look, const std::string& way) {
  return fmt::format("<path class=\"{}\" d=\"{}\"/>\n", look, way);
}

constexpr double half_base_of(double height) { return height / std::numbers::sqrt3; }

std::string shape(const Stroke& s) {
  const Point p{s.x, s.y}, q{s.x2, s.y2};
  const std::string_view look = look_of(s.style);
  switch (s.form) {
    case Stroke::Form::line:
      return drawn(look, line(p, q));
    case Stroke::Form::arrow: {
      const double towards = std::atan2(q.y - p.y, q.x - p.x) * 180.0 / std::numbers::pi;
      const Point back = polar(towards, head_length / 2);
      return drawn(look, line(p, {q.x - back.x, q.y - back.y})) +
             drawn("f", triangle(q, towards, head_length, head_width / 2));
    }
    case Stroke::Form::box:
      return drawn(look, box(s));
    case Stroke::Form::circle:
      return drawn(look, circle(p, s.x2));
    case Stroke::Form::arc:
      return drawn(look, half_circle(p, s.x2, s.y2));
    case Stroke::Form::filled:
      return drawn("f", triangle(p, s.y2, s.x2, half_base_of(s.x2)));
    case Stroke::Form::open:
      return drawn(look, triangle(p, s.y2, s.x2, half_base_of(s.x2)));
    case Stroke::Form::spring:
      return drawn(look, zigzag(p, q));
    case Stroke::Form::dot:
      return drawn("f", circle(p, 0.375));
  }
  return {};
}

/// The extent of one stroke by itself.
Extent extent_of(const Stroke& s) {
  const auto about = [&](double r) { return Extent{s.x - r, s.y - r, s.x + r, s.y + r}; };
  switch (s.form) {
    case Stroke::Form::circle:
    case Stroke::Form::arc:
      return about(s.x2);
    case Stroke::Form::dot:
      return about(0.375);
    case Stroke::Form::filled:
    case Stroke::Form::open: {
      const Point back = polar(s.y2, s.x2), side = polar(s.y2 + 90, half_base_of(s.x2));
      return {std::min(s.x, s.x - back.x - std::abs(side.x)), std::min(s.y, s.y - back.y - std::abs(side.y)),
              std::max(s.x, s.x - back.x + std::abs(side.x)), std::max(s.y, s.y - back.y + std::abs(side.y))};
    }
    case Stroke::Form::spring: {
      const double wide = s.y == s.y2 ? 0.0 : spring_half_width, high = s.x == s.x2 ? 0.0 : spring_half_width;
      return {std::min(s.x, s.x2) - wide, std::min(s.y, s.y2) - high, std::max(s.x, s.x2) + wide,
              std::max(s.y, s.y2) + high};
    }
    default:
      return {std::min(s.x, s.x2), std::min(s.y, s.y2), std::max(s.x, s.x2), std::max(s.y, s.y2)};
  }
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
std::string name_at(const Anchor& anchor, std::string_view name, const Extent& all, bool upright) {
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

Extent extent_of(std::span<const Stroke> strokes, std::span<const Anchor> anchors) {
  Extent all{1e9, 1e9, -1e9, -1e9};
  const auto take = [&](const Extent& e) {
    all = {std::min(all.left, e.left), std::min(all.low, e.low), std::max(all.right, e.right),
           std::max(all.high, e.high)};
  };
  for (const Stroke& s : strokes) take(extent_of(s));
  for (const Anchor& a : anchors) take({a.x, a.y, a.x, a.y});
  return all;
}

std::string svg(std::span<const Stroke> strokes, std::span<const Anchor> anchors,
                std::span<const std::string_view> port_names, std::string_view title) {
  const Extent all = extent_of(strokes, anchors);
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
      ".d{stroke-dasharray:.5 .3}.c{stroke-dasharray:1.2 .35 .1 .35}.f{fill:#1a1a1a}"
      "text{fill:#1a1a1a;font:1px sans-serif}"
      "@media(prefers-color-scheme:dark){.l{stroke:#e6e6e6}.f,text{fill:#e6e6e6}}</style>\n";
  for (const Stroke& s : strokes) text += shape(s);
  for (std::size_t i = 0; i < anchors.size(); ++i) text += name_at(anchors[i], port_names[i], all, upright);
  return text + "</svg>\n";
}

}  // namespace poise::reference
