// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <vector>

#include "draw/moment.hpp"
#include "draw/schematic.hpp"
#include "draw/sheet.hpp"

namespace poise::draw {

/// Where a schematic lies on the paper: the length of a module, and where its 0, 0 is; mm.
struct Mapping {
  double module = 2.5;
  Point origin{};

  Point at(Point p) const { return {origin.x + module * p.x, origin.y + module * p.y}; }
  Box at(const Box& b) const {
    const Point low = at(Point{b.left, b.low}), high = at(Point{b.right, b.high});
    return {low.x, low.y, high.x, high.y};
  }
};

/// Width of lines, mm; of those with oil in a drawing of a moment.
inline constexpr double line_width = 0.25, coloured_width = 0.5;

/// Segments as marks, those that go on from one another as one; rods and shafts as two lines beside each
/// other.
void add_line(std::vector<Mark>& marks, const Wire& wire, const Mapping& mapping,
              std::optional<Colour> colour);

/// Dots where three or more pieces of a line meet.
void add_junctions(std::vector<Mark>& marks, const std::vector<Point>& junctions, const Mapping& mapping,
                   std::optional<Colour> colour);

/// How arrows grow with the flow: their length with its root, up to that of the greatest.
struct ArrowScale {
  double greatest = 0.0;  ///< m3/s

  bool shows(double flow) const;
  double length(double flow) const;  ///< M
};

/// A filled arrow head in the middle of each piece that is long enough and through which oil runs.
void add_arrows(std::vector<Mark>& marks, const std::vector<Stream>& pieces, const Mapping& mapping,
                const ArrowScale& scale, const Colour& colour);

/// One such arrow head about a place, pointing towards an angle (degrees, 0 right, 90 up).
void add_arrow(std::vector<Mark>& marks, Point middle, double towards, double length, const Pen& pen);

}  // namespace poise::draw
