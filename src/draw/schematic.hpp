// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "circuit/plan.hpp"
#include "draw/geometry.hpp"

namespace poise::draw {

/// How a symbol is set down: mirrored left to right about its origin first, then turned by quarter turns
/// counterclockwise.
struct Turn {
  bool mirrored = false;
  int quarters = 0;
  friend bool operator==(const Turn&, const Turn&) = default;
};

/// What stands beside a part: its code after ISO 1219-2 in a frame, its tag, and lines of data.
struct Words {
  std::string code, tag;
  std::vector<std::string> lines;
};

/// What a job asks of its drawing, part by part in the plan's order; may be empty.
struct Wish {
  std::optional<Point> at;  ///< where the symbol's origin stands, M; given by hand
  std::string assembly;     ///< parts of the same assembly stand together in an enclosure
};

/// A part set down on the drawing, M.
struct PlacedSymbol {
  int part = 0;
  Turn turn;
  Point at;                    ///< of the symbol's origin
  std::vector<Point> anchors;  ///< one per port
  Box box;                     ///< covers the symbol in every position it can take, leads included
};

/// Text beside a part.
struct Label {
  int part = 0;
  Box box;
};

/// A mark of the reservoir at a line that ends in it, so that not every return runs to one place.
struct TankMark {
  int reservoir = 0;        ///< the part it stands for
  PortOf port;              ///< the port that the line comes from
  std::vector<Point> lead;  ///< from the port's anchor to the mark
  Box box;
};

/// A straight piece of a line, upright or level.
struct Segment {
  Point from, to;
  bool pilot = false;  ///< drawn dashed: pilot and drain lines
};

/// Ports joined without anything between them, and the line between them: together the segments are a tree.
struct Wire {
  std::vector<PortOf> ports;
  std::vector<Segment> segments;
  std::vector<Point> junctions;  ///< where three or more pieces meet
  bool mechanical = false;       ///< rods and shafts: a double line
};

/// The edge of an assembly.
struct Enclosure {
  std::string name;
  Box box;
  Box label;
};

/// A circuit as it stands on paper, in modules M: parts from 0, 0 up and to the right, lines also a little
/// left of them and below.
struct Schematic {
  std::vector<PlacedSymbol> symbols;  ///< in the plan's order
  std::vector<Label> labels;          ///< in the plan's order
  std::vector<TankMark> tanks;
  std::vector<Wire> wires;
  std::vector<Enclosure> enclosures;
  std::vector<Remark> remarks;  ///< wishes that could not be met
  Box box;
};

/// Letters of labels, M: size of the font, and from one line of text to the next.
inline constexpr double letter_size = 1.25, line_pitch = 1.75;

/// Sets the circuit down: reservoir and pumps at the bottom, actuators on top, lines level and upright
/// between them. The same plan gives the same drawing. `words` has one entry per part.
Schematic arrange(const Plan& plan, std::span<const Words> words, std::span<const Wish> wishes);

}  // namespace poise::draw
