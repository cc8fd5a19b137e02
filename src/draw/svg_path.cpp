// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/svg_path.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "draw/number.hpp"
#include "draw/utf8.hpp"

namespace poise::draw {
namespace {

/// Writes a way in the picture's coordinates. A level or upright step needs one number only.
struct Way {
  double top;
  int decimals;
  std::string text{};
  std::string x{}, y{};

  std::string level(double value) const { return plain_number(value, decimals); }
  void arrive(Point p) { x = level(p.x), y = level(top - p.y); }

  void move(Point p) {
    arrive(p);
    text += fmt::format("M{} {}", x, y);
  }
  void line(Point p) {
    const std::string old_x = x, old_y = y;
    arrive(p);
    if (y == old_y) {
      text += "H" + x;
    } else if (x == old_x) {
      text += "V" + y;
    } else {
      text += fmt::format("L{} {}", x, y);
    }
  }
  /// Counterclockwise on paper.
  void arc(double radius, bool more_than_half, Point p) {
    arrive(p);
    const std::string r = level(radius);
    text += fmt::format("A{} {} 0 {:d} 0 {} {}", r, r, more_than_half, x, y);
  }
  void close() { text += "Z"; }

  void operator()(const Polyline& way) {
    if (way.points.empty()) return;
    move(way.points.front());
    for (std::size_t i = 1; i < way.points.size(); ++i) line(way.points[i]);
    if (way.closed) close();
  }
  void operator()(const Circle& c) {
    const Point right{c.centre.x + c.radius, c.centre.y}, left{c.centre.x - c.radius, c.centre.y};
    move(right);
    arc(c.radius, false, left);
    arc(c.radius, false, right);
    close();
  }
  void operator()(const Arc& a) {
    const auto on_arc = [&](double degrees) {
      const double angle = degrees * std::numbers::pi / 180.0;
      return Point{a.centre.x + a.radius * std::cos(angle), a.centre.y + a.radius * std::sin(angle)};
    };
    double sweep = std::fmod(a.to - a.from, 360.0);
    if (sweep <= 0.0) sweep += 360.0;
    if (sweep == 360.0) return (*this)(Circle{a.centre, a.radius});
    move(on_arc(a.from));
    arc(a.radius, sweep > 180.0, on_arc(a.to));
  }
  void operator()(const Text&) {}
};

}  // namespace

std::string svg_path(const Mark& mark, double top, int decimals) {
  Way way{top, decimals};
  std::visit(way, mark.shape);
  return way.text;
}

std::string xml_text(std::string_view text) {
  std::string all;
  for (const char c : sound(text)) {
    switch (c) {
      case '&':
        all += "&amp;";
        break;
      case '<':
        all += "&lt;";
        break;
      case '>':
        all += "&gt;";
        break;
      case '"':
        all += "&quot;";
        break;
      case '\'':
        all += "&#39;";
        break;
      default:
        all += c;
    }
  }
  return all;
}

}  // namespace poise::draw
