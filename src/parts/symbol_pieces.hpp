// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <cstddef>
#include <tuple>
#include <type_traits>
#include <vector>

#include "parts/symbol.hpp"

namespace poise::pieces {

template <std::size_t N>
using Drawing = std::array<Stroke, N>;

constexpr Drawing<1> drawing(const Stroke& s) { return {s}; }
template <std::size_t N>
constexpr const Drawing<N>& drawing(const Drawing<N>& d) {
  return d;
}

/// Strokes as they are counted up, for drawings that differ in number with the values.
class Sketch {
 public:
  constexpr void add(const Stroke& s) { strokes_[count_++] = s; }
  template <std::size_t N>
  constexpr void add(const Drawing<N>& all) {
    for (const Stroke& s : all) add(s);
  }
  template <class First, class Second, class... Others>
  constexpr void add(const First& first, const Second& second, const Others&... others) {
    add(first);
    add(second);
    (add(others), ...);
  }
  constexpr const Stroke* data() const { return strokes_.data(); }
  constexpr std::size_t size() const { return count_; }
  constexpr bool empty() const { return count_ == 0; }
  constexpr const Stroke* begin() const { return data(); }
  constexpr const Stroke* end() const { return data() + count_; }

 private:
  std::array<Stroke, 80> strokes_{};
  std::size_t count_ = 0;
};

/// A drawing as rooms hand it out.
template <class Any>
std::vector<Stroke> strokes(const Any& drawing) {
  return {drawing.begin(), drawing.end()};
}

/// Strokes and drawings as one drawing.
template <class... Parts>
constexpr auto join(const Parts&... parts) {
  Drawing<(std::tuple_size_v<std::remove_cvref_t<decltype(drawing(parts))>> + ...)> all{};
  std::size_t at = 0;
  const auto add = [&](const auto& strokes) {
    for (const Stroke& s : strokes) all[at++] = s;
  };
  (add(drawing(parts)), ...);
  return all;
}

/// A drawing set down elsewhere.
template <std::size_t N>
constexpr Drawing<N> moved(Drawing<N> d, double dx, double dy) {
  for (Stroke& s : d) {
    s.x += dx;
    s.y += dy;
    const bool has_end = s.form == Stroke::Form::line || s.form == Stroke::Form::arrow ||
                         s.form == Stroke::Form::box || s.form == Stroke::Form::spring;
    if (has_end) {
      s.x2 += dx;
      s.y2 += dy;
    }
  }
  return d;
}

/// The same line style for all of a drawing.
template <std::size_t N>
constexpr Drawing<N> dashed(Drawing<N> d) {
  for (Stroke& s : d) s.style = Stroke::Style::dashed;
  return d;
}

/// A line through points x, y, x, y ...
template <class... Numbers>
constexpr auto path(Numbers... numbers) {
  constexpr std::size_t points = sizeof...(numbers) / 2;
  static_assert(points >= 2 && sizeof...(numbers) % 2 == 0);
  const std::array<double, 2 * points> at{static_cast<double>(numbers)...};
  Drawing<points - 1> lines{};
  for (std::size_t i = 0; i + 1 < points; ++i) {
    lines[i] = stroke::line(at[2 * i], at[2 * i + 1], at[2 * i + 2], at[2 * i + 3]);
  }
  return lines;
}
/// The same as a pilot or drain line.
template <class... Numbers>
constexpr auto pilot(Numbers... numbers) {
  return dashed(path(numbers...));
}

/// A shallow arc from one point to another; `height` to the left of the way.
constexpr Drawing<8> bow(double x, double y, double x2, double y2, double height) {
  Drawing<8> lines{};
  const double dx = x2 - x, dy = y2 - y;
  // The square root of dx² + dy², by Newton: <cmath> has none at compile time.
  double length = (dx < 0 ? -dx : dx) + (dy < 0 ? -dy : dy);
  for (int i = 0; i < 20; ++i) length = 0.5 * (length + (dx * dx + dy * dy) / length);
  const auto at_x = [&](double s) { return x + s * dx - dy / length * height * 4 * s * (1 - s); };
  const auto at_y = [&](double s) { return y + s * dy + dx / length * height * 4 * s * (1 - s); };
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const double s = static_cast<double>(i) / 8, t = static_cast<double>(i + 1) / 8;
    lines[i] = stroke::line(at_x(s), at_y(s), at_x(t), at_y(t));
  }
  return lines;
}

/// A spring that a screw sets, from x, y to the right, 2 M long.
constexpr auto adjustable_spring(double x, double y) {
  return join(stroke::spring(x, y, x + 2, y), stroke::arrow(x + 0.25, y - 1.5, x + 1.75, y + 1.5));
}
/// "Adjustable": the slant arrow across what is about x, y.
constexpr Stroke adjustable(double x, double y, double reach) {
  return stroke::arrow(x - reach, y - reach, x + reach, y + reach);
}

/// How far an open check's ball stands off its seat.
inline constexpr double lift = 0.5;

/// A check about x, y, free upwards: seat, ball and its leads to y ± 2.
constexpr auto check_up(double x, double y, bool open = false) {
  const double ball = y - 0.04 + (open ? lift : 0.0);
  return join(stroke::line(x, y - 2, x, y - 0.75), path(x - 0.9, y + 0.15, x, y - 0.75, x + 0.9, y + 0.15),
              stroke::circle(x, ball, 0.5), stroke::line(x, ball + 0.5, x, y + 2));
}
/// A check about x, y, free downwards.
constexpr auto check_down(double x, double y, bool open = false) {
  const double ball = y + 0.04 - (open ? lift : 0.0);
  return join(stroke::line(x, y + 0.75, x, y + 2), path(x - 0.9, y - 0.15, x, y + 0.75, x + 0.9, y - 0.15),
              stroke::circle(x, ball, 0.5), stroke::line(x, y - 2, x, ball - 0.5));
}
/// A check free upwards with the spring that shuts it.
constexpr auto sprung_check_up(double x, double y, bool open = false) {
  const double ball = y - 0.04 + (open ? lift : 0.0);
  return join(stroke::line(x, y - 2, x, y - 0.75), path(x - 0.9, y + 0.15, x, y - 0.75, x + 0.9, y + 0.15),
              stroke::circle(x, ball, 0.5), stroke::spring(x, ball + 0.5, x, y + 2.5));
}

/// The two facing arcs of a restriction in an upright line through x, y.
constexpr auto restriction(double x, double y) {
  return join(bow(x - 0.9, y + 1, x - 0.9, y - 1, 0.6), bow(x + 0.9, y - 1, x + 0.9, y + 1, 0.6));
}

/// A port that a valve's position shuts, at x, y on the box's lower (1) or upper (−1) edge.
constexpr auto shut_port(double x, double y, double inwards) {
  return join(stroke::line(x, y, x, y + 0.75 * inwards),
              stroke::line(x - 0.5, y + 0.75 * inwards, x + 0.5, y + 0.75 * inwards));
}

/// A solenoid against the left (−1) or right (1) end of a valve at x, its lower edge at y.
constexpr auto solenoid(double x, double y, double side) {
  const double left = side < 0 ? x - 3 : x;
  return join(stroke::box(left, y, left + 3, y + 2), stroke::line(left + 1, y + 2, left + 2, y));
}

/// The circle of a pump about x, y that presses oil out upwards.
constexpr auto pump_circle(double x, double y) {
  return join(stroke::circle(x, y, 3), stroke::filled(x, y + 3, 1.5, 90));
}
/// The lead lines below and above a circle of radius 3.
constexpr auto leads(double x, double y) {
  return join(stroke::line(x, y - 4, x, y - 3), stroke::line(x, y + 3, x, y + 4));
}
/// A shaft from x to x2 at height y.
constexpr auto shaft(double x, double x2, double y) {
  return join(stroke::line(x, y - 0.25, x2, y - 0.25), stroke::line(x, y + 0.25, x2, y + 0.25));
}
/// A curved arrow about a shaft at x, y.
constexpr auto turn_arrow(double x, double y) {
  return join(bow(x, y - 1.25, x, y + 0.75, -0.6), stroke::filled(x - 0.2, y + 1.25, 0.75, 110));
}
/// The electric motor about x, y.
constexpr auto electric_motor(double x, double y) {
  return join(stroke::circle(x, y, 3), path(x - 1.25, y - 1.25, x - 1.25, y + 1.25, x, y - 0.5, x + 1.25,
                                            y + 1.25, x + 1.25, y - 1.25));
}
/// A pump at 0, 0 with its leads and its electric motor on the right.
constexpr auto motor_pump() {
  return join(pump_circle(0, 0), leads(0, 0), shaft(3, 5, 0), turn_arrow(4, 0), electric_motor(8, 0));
}

/// The square on its corner of what conditions oil, with its leads.
constexpr auto diamond() {
  return join(path(0, -2.83, 2.83, 0, 0, 2.83, -2.83, 0, 0, -2.83), stroke::line(0, -4, 0, -2.83),
              stroke::line(0, 2.83, 0, 4));
}

/// A lying cylinder's barrel, piston and rod. Only the piston moves with `share`: the rod's outer end and the
/// ports stay where lines meet them.
constexpr auto lying_cylinder(double share = 0.0) {
  const double piston = 2 + 4 * share;
  return join(stroke::box(0, 0, 9, 4), stroke::box(piston, 0, piston + 1, 4),
              stroke::box(piston + 1, 1.5, 12, 2.5));
}

/// The arrow in a valve of one box from 0, 0 to 4, 4: on the line between its ports, or 1 M aside of it.
constexpr Stroke way_up(bool open) { return stroke::arrow(open ? 2 : 1, 0, open ? 2 : 1, 4); }
constexpr Stroke way_down(bool open) { return stroke::arrow(open ? 2 : 1, 4, open ? 2 : 1, 0); }
/// Such a valve's box with its leads below and above.
constexpr auto one_box(double below, double above) {
  return join(stroke::box(0, 0, 4, 4), stroke::line(2, below, 2, 0), stroke::line(2, 4, 2, above));
}
/// The pilot from the line below to the side opposite the spring.
constexpr auto pilot_from_below() { return pilot(2, -1, -1, -1, -1, 2, 0, 2); }
/// Such a valve, shut at rest, opened by the pressure below it against a spring that a screw sets.
constexpr auto opens_by_inlet(bool open) {
  return join(one_box(-2, 5), way_up(open), pilot_from_below(), adjustable_spring(4, 2));
}
/// The drain of its spring chamber.
constexpr auto spring_drain(double to) { return pilot(4, 0.5, 5, 0.5, 5, to); }
/// The line past such a valve in which its check stands, and the edge of both; lines meet it on the edge.
constexpr auto beside(double x, double below, double above, double left = -2) {
  return join(path(2, below, x, below, x, 0), path(x, 4, x, above, 2, above), stroke::dot(2, below),
              stroke::dot(2, above), stroke::chain(stroke::box(left, below - 1, x + 1.5, above + 1)));
}

}  // namespace poise::pieces
