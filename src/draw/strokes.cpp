// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/strokes.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

namespace poise::draw {
namespace {

using Form = Stroke::Form;

constexpr double head_length = 0.9, head_width = 0.5;
constexpr double spring_half_width = 0.75, legs_per_module = 2.0;
constexpr double dot_radius = 0.375;
constexpr double degrees_per_radian = 180.0 / std::numbers::pi;

/// Exact on the axes, so that a turned symbol meets its grid.
Point polar(double degrees, double length) {
  const double quarters = degrees / 90.0;
  if (quarters == std::floor(quarters)) {
    constexpr std::array<Point, 4> axes{Point{1, 0}, Point{0, 1}, Point{-1, 0}, Point{0, -1}};
    const Point& axis = axes[static_cast<std::size_t>(quarters - 4 * std::floor(quarters / 4))];
    return {length * axis.x, length * axis.y};
  }
  return {length * std::cos(degrees / degrees_per_radian), length * std::sin(degrees / degrees_per_radian)};
}

Point sum(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
Point start_of(const Stroke& s) { return {s.x, s.y}; }
Point end_of(const Stroke& s) { return {s.x2, s.y2}; }

double wrapped(double degrees) {
  const double rest = std::fmod(degrees, 360.0);
  return rest < 0.0 ? rest + 360.0 : rest;
}

double turned_angle(double degrees, Turn turn) {
  return wrapped((turn.mirrored ? 180.0 - degrees : degrees) + 90.0 * turn.quarters);
}

bool has_end(Form form) {
  return form == Form::line || form == Form::arrow || form == Form::box || form == Form::spring;
}
bool has_angle(Form form) { return form == Form::arc || form == Form::filled || form == Form::open; }

/// Tip first.
std::vector<Point> triangle(Point tip, double towards, double height, double half_base) {
  const Point back = polar(towards, -height), across = polar(towards + 90, half_base);
  const Point base = sum(tip, back);
  return {tip, sum(base, across), {base.x - across.x, base.y - across.y}};
}
/// With three equal sides.
std::vector<Point> triangle(const Stroke& s) {
  return triangle(start_of(s), s.y2, s.x2, s.x2 / std::numbers::sqrt3);
}

double direction_of(const Stroke& s) { return std::atan2(s.y2 - s.y, s.x2 - s.x) * degrees_per_radian; }

std::vector<Point> head_of(const Stroke& arrow) {
  return triangle(end_of(arrow), direction_of(arrow), head_length, head_width / 2);
}

std::vector<Point> windings(const Stroke& spring) {
  const double dx = spring.x2 - spring.x, dy = spring.y2 - spring.y, length = std::hypot(dx, dy);
  const int legs = std::max(4, static_cast<int>(length * legs_per_module));
  std::vector<Point> way{start_of(spring)};
  for (int i = 0; i < legs; ++i) {
    const double along = (i + 0.5) / legs, side = i % 2 == 0 ? spring_half_width : -spring_half_width;
    way.push_back({spring.x + along * dx - side * dy / length, spring.y + along * dy + side * dx / length});
  }
  way.push_back(end_of(spring));
  return way;
}

Box around(std::span<const Point> points) {
  Box box{points[0].x, points[0].y, points[0].x, points[0].y};
  for (const Point& p : points) box = hull(box, {p.x, p.y, p.x, p.y});
  return box;
}
Box around(Point p, double radius) { return Box{p.x, p.y, p.x, p.y}.grown(radius); }

/// Ends of the half circle and those of its four outermost points that lie on it.
Box around_arc(const Stroke& s) {
  std::vector<Point> outermost;
  const double middle = s.y2 + 180.0;
  for (const double from_middle : {-90.0, 90.0}) {
    outermost.push_back(sum(start_of(s), polar(middle + from_middle, s.x2)));
  }
  for (const double axis : {0.0, 90.0, 180.0, 270.0}) {
    const double off = wrapped(axis - middle);
    if (off <= 90.0 || off >= 270.0) outermost.push_back(sum(start_of(s), polar(axis, s.x2)));
  }
  return around(outermost);
}

/// As wide on both sides, whichever the first winding goes to.
Box around_spring(const Stroke& s) {
  const double length = std::hypot(s.x2 - s.x, s.y2 - s.y);
  const double wide = spring_half_width * std::abs(s.y2 - s.y) / length;
  const double high = spring_half_width * std::abs(s.x2 - s.x) / length;
  const Box ends = around(std::array{start_of(s), end_of(s)});
  return {ends.left - wide, ends.low - high, ends.right + wide, ends.high + high};
}

Box extent_of(const Stroke& s) {
  switch (s.form) {
    case Form::arrow:
      return hull(around(std::array{start_of(s), end_of(s)}), around(head_of(s)));
    case Form::circle:
      return around(start_of(s), s.x2);
    case Form::arc:
      return around_arc(s);
    case Form::dot:
      return around(start_of(s), dot_radius);
    case Form::filled:
    case Form::open:
      return around(triangle(s));
    case Form::spring:
      return around_spring(s);
    case Form::line:
    case Form::box:
      break;
  }
  return around(std::array{start_of(s), end_of(s)});
}

Dash dash_of(Stroke::Style style) {
  if (style == Stroke::Style::dashed) return Dash::dashed;
  return style == Stroke::Style::chain ? Dash::chain : Dash::solid;
}

/// Sets marks down about an origin, in the size of a module.
struct Setter {
  std::vector<Mark>& marks;
  Point origin;
  double module;
  Pen pen;

  Point placed(Point p) const { return {origin.x + module * p.x, origin.y + module * p.y}; }

  std::vector<Point> placed(std::vector<Point> points) const {
    for (Point& p : points) p = placed(p);
    return points;
  }

  Pen pen_of(const Stroke& s) const {
    Pen own = pen;
    own.dash = dash_of(s.style);
    own.filled = false;
    return own;
  }
  Pen filled() const {
    Pen own = pen;
    own.dash = Dash::solid;
    own.filled = true;
    own.width = 0.0;  // its edge is where it says, not half a line further out
    return own;
  }

  void way(const Stroke& s, std::vector<Point> points, bool closed = false) {
    marks.push_back({pen_of(s), Polyline{placed(std::move(points)), closed}});
  }
  void solid(std::vector<Point> points) {
    marks.push_back({filled(), Polyline{placed(std::move(points)), true}});
  }

  void add(const Stroke& s) {
    const Point start = start_of(s), end = end_of(s);
    switch (s.form) {
      case Form::line:
        return way(s, {start, end});
      case Form::arrow: {
        // The line ends inside the head: its blunt end must not stand out at the tip.
        const Point back = polar(direction_of(s), -head_length / 2);
        way(s, {start, sum(end, back)});
        return solid(head_of(s));
      }
      case Form::box:
        return way(s, {start, {end.x, start.y}, end, {start.x, end.y}}, true);
      case Form::circle:
        return marks.push_back({pen_of(s), Circle{placed(start), module * s.x2}});
      case Form::arc: {
        const double from = wrapped(s.y2 + 90.0);
        return marks.push_back({pen_of(s), Arc{placed(start), module * s.x2, from, from + 180.0}});
      }
      case Form::filled:
        return solid(triangle(s));
      case Form::open:
        return way(s, triangle(s), true);
      case Form::spring:
        return way(s, windings(s));
      case Form::dot:
        return marks.push_back({filled(), Circle{placed(start), module * dot_radius}});
    }
  }
};

/// Lines from `first` on, each beginning where the last one ended: how many.
std::size_t length_of_path(std::span<const Stroke> strokes, std::size_t first) {
  std::size_t last = first;
  if (strokes[first].form != Form::line) return 1;
  while (last + 1 < strokes.size()) {
    const Stroke &here = strokes[last], &next = strokes[last + 1];
    if (next.form != Form::line || next.style != here.style || end_of(here) != start_of(next)) break;
    ++last;
  }
  return last - first + 1;
}

}  // namespace

Point turned(Point p, Turn turn) {
  if (turn.mirrored) p.x = -p.x;
  const int quarters = ((turn.quarters % 4) + 4) % 4;
  for (int i = 0; i < quarters; ++i) p = {-p.y, p.x};
  return p;
}

Stroke turned(Stroke s, Turn turn) {
  const Point start = turned(start_of(s), turn), end = turned(end_of(s), turn);
  if (has_angle(s.form)) s.y2 = turned_angle(s.y2, turn);
  s.x = start.x, s.y = start.y;
  if (has_end(s.form)) s.x2 = end.x, s.y2 = end.y;
  if (s.form == Form::box) {
    s.x = std::min(start.x, end.x), s.x2 = std::max(start.x, end.x);
    s.y = std::min(start.y, end.y), s.y2 = std::max(start.y, end.y);
  }
  return s;
}

Box extent_of(std::span<const Stroke> strokes) {
  if (strokes.empty()) return {};
  Box all = extent_of(strokes.front());
  for (const Stroke& s : strokes.subspan(1)) all = hull(all, extent_of(s));
  return all;
}

void add_strokes(std::vector<Mark>& marks, std::span<const Stroke> strokes, Point origin, double module,
                 Pen pen) {
  Setter setter{marks, origin, module, pen};
  for (std::size_t first = 0; first < strokes.size();) {
    const std::size_t length = length_of_path(strokes, first);
    if (length == 1) {
      setter.add(strokes[first]);
    } else {
      std::vector<Point> way{start_of(strokes[first])};
      for (const Stroke& s : strokes.subspan(first, length)) way.push_back(end_of(s));
      const bool closed = length > 2 && way.front() == way.back();
      if (closed) way.pop_back();
      setter.way(strokes[first], std::move(way), closed);
    }
    first += length;
  }
}

}  // namespace poise::draw
