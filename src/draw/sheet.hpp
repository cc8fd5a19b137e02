// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "draw/geometry.hpp"

namespace poise::draw {

/// What a mark belongs to; a layer of the DXF, a class of the SVG.
enum class Layer { symbols, working, pilot, mechanical, enclosures, flow, labels, frame, chart };
enum class Dash { solid, dashed, chain };

struct Colour {
  unsigned char red = 0, green = 0, blue = 0;
  friend bool operator==(const Colour&, const Colour&) = default;
};

/// How a mark is drawn. Without a colour it is in ink: black on white paper, white on a dark screen.
struct Pen {
  Layer layer = Layer::symbols;
  double width = 0.2;  ///< mm
  Dash dash = Dash::solid;
  bool filled = false;  ///< the inside too; only of a closed shape
  std::optional<Colour> colour{};
};

struct Polyline {
  std::vector<Point> points;
  bool closed = false;
};
struct Circle {
  Point centre;
  double radius = 0.0;
};
/// Counterclockwise from one angle to another, degrees, 0 to the right.
struct Arc {
  Point centre;
  double radius = 0.0, from = 0.0, to = 0.0;
};
/// One line of text. `at` is on its base line, at the end or middle that `stands` says.
struct Text {
  enum class Stands { left, middle, right };
  Point at;
  std::string words;
  double height = 2.5;  ///< mm, font size
  Stands stands = Stands::left;
  bool upright = false;  ///< turned by 90° counterclockwise about `at`
  bool bold = false;
};

struct Mark {
  Pen pen;
  std::variant<Polyline, Circle, Arc, Text> shape;
};

/// Marks that belong together: a part, a line, the frame.
struct Group {
  std::string kind;   ///< "part", "line", "frame", "legend" ...
  std::string name;   ///< by which a page finds it: a part's tag
  std::string title;  ///< for those who cannot see it
  std::vector<Mark> marks;
};

/// A drawing in real millimetres, x right and y up from the lower left corner of the paper.
struct Sheet {
  double width = 297.0, height = 210.0;
  std::string title, description;
  std::vector<Group> groups;
};

}  // namespace poise::draw
