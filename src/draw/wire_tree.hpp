// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <vector>

#include "draw/schematic.hpp"

namespace poise::draw {

/// A straight piece of a line and the oil that runs through it, m3/s, positive from its `from` to its `to`.
struct Stream {
  Segment piece;
  double flow = 0.0;
};

/// One line as a tree of places with pieces between them: its segments, cut where others meet them or a port
/// is.
class WireTree {
 public:
  WireTree(const Wire& wire, const Schematic& schematic);

  /// Oil that is taken out of the line at a place, m3/s.
  void take(Point at, double flow);
  /// Every piece with what runs through it.
  std::vector<Stream> streams() const;
  /// The line's ports on the one side and on the other of the piece that is nearest to a place, M.
  std::array<std::vector<PortOf>, 2> sides(Point at) const;

 private:
  struct Piece {
    Segment segment;
    int from, to;
  };

  void cut(const Segment& s, const std::vector<Point>& ends);
  int place_of(Point p);
  double below(int place, std::vector<bool>& seen, std::vector<Stream>& streams) const;
  void reach(int place, std::vector<bool>& seen) const;
  const Piece* nearest(Point at) const;

  std::vector<Point> places_;
  std::vector<Piece> pieces_;
  std::vector<double> taken_;
  std::vector<PortOf> ports_;
  std::vector<int> place_of_port_;
  double all_taken_ = 0.0;
};

}  // namespace poise::draw
