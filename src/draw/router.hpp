// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "draw/figure.hpp"

namespace poise::draw {

/// What the router is asked: which places are taken, and what to join, on the grid of whole modules.
struct Ground {
  Box box;                                ///< lines stay inside
  std::vector<Box> taken;                 ///< no line enters or touches
  std::vector<std::vector<Point>> leads;  ///< lines that stand already and are not crossed
  std::vector<std::vector<Pin>> wires;    ///< pins to join, wire by wire
};

/// A wire as found: pieces from corner to corner, a tree.
struct Found {
  std::vector<Segment> segments;
  std::vector<Point> junctions;
};

struct Routes {
  std::vector<Found> wires;
  bool complete = true;  ///< false: some pin could not be reached
  double cost = 0.0;     ///< crossings, bends and length, weighted
};

/// Joins the pins of each wire by level and upright lines with few crossings and bends: shortest paths on the
/// grid, wire after wire, each laid again while that makes the whole better.
Routes find_routes(const Ground& ground);

}  // namespace poise::draw
