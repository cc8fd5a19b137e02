// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>

namespace poise {

/// A stroke of a graphic symbol in modules M (ISO 1219-1 grid, from memory: 1 M is drawn 2 mm), x right, y
/// up. A part's symbol is a list of strokes about its own origin, drawn in the part's position at rest.
struct Stroke {
  enum class Form {
    line,    ///< x, y to x2, y2
    arrow,   ///< a line with a filled head at x2, y2
    box,     ///< lower left corner x, y, upper right corner x2, y2
    circle,  ///< centre x, y, radius x2
    arc,     ///< half circle about x, y of radius x2, open towards angle y2 (degrees, 0 right, 90 up)
    filled,  ///< filled triangle with its tip at x, y, pointing towards angle y2 (degrees), height x2
    open,    ///< the same, not filled: gas instead of oil
    spring,  ///< zigzag from x, y to x2, y2
    dot,     ///< junction at x, y
  };
  enum class Style { solid, dashed, chain };  ///< full lines; pilot and drain lines; the edge of an assembly
  Form form = Form::line;
  double x = 0.0, y = 0.0, x2 = 0.0, y2 = 0.0;
  Style style = Style::solid;
};

/// Where a port of a part meets its symbol, M.
struct Anchor {
  double x = 0.0, y = 0.0;
};

namespace stroke {
constexpr Stroke line(double x, double y, double x2, double y2) { return {Stroke::Form::line, x, y, x2, y2}; }
constexpr Stroke arrow(double x, double y, double x2, double y2) {
  return {Stroke::Form::arrow, x, y, x2, y2};
}
constexpr Stroke box(double x, double y, double x2, double y2) { return {Stroke::Form::box, x, y, x2, y2}; }
constexpr Stroke circle(double x, double y, double radius) { return {Stroke::Form::circle, x, y, radius}; }
constexpr Stroke arc(double x, double y, double radius, double towards) {
  return {Stroke::Form::arc, x, y, radius, towards};
}
constexpr Stroke filled(double x, double y, double height, double towards) {
  return {Stroke::Form::filled, x, y, height, towards};
}
constexpr Stroke open(double x, double y, double height, double towards) {
  return {Stroke::Form::open, x, y, height, towards};
}
constexpr Stroke spring(double x, double y, double x2, double y2) {
  return {Stroke::Form::spring, x, y, x2, y2};
}
constexpr Stroke dot(double x, double y) { return {Stroke::Form::dot, x, y}; }
constexpr Stroke dashed(Stroke s) {
  s.style = Stroke::Style::dashed;
  return s;
}
constexpr Stroke chain(Stroke s) {
  s.style = Stroke::Style::chain;
  return s;
}
}  // namespace stroke

}  // namespace poise
