// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "draw/schematic.hpp"

namespace poise::drawing {

/// Places closer than this are one place, M.
inline constexpr double same_place = 1e-6;

/// A wire, or the lead of a tank mark, cut at every place where its pieces meet.
struct DrawnLine {
  std::string name;  ///< by its ports
  std::vector<PortOf> ports;
  std::vector<draw::Segment> segments;  ///< as drawn
  bool mechanical = false;
  int tank = -1;  ///< index of the mark whose lead this is

  using Spot = std::pair<long long, long long>;  ///< a place, counted in `same_place`
  std::map<Spot, std::vector<Spot>>
      meets;  ///< from each place where pieces begin, end or meet to its neighbours
  bool lies_on_itself = false;
};

DrawnLine::Spot spot(draw::Point at);
draw::Point place(DrawnLine::Spot spot);

/// Every line of a drawing.
std::vector<DrawnLine> lines_of(const Plan& plan, const draw::Schematic& schematic);

/// The pieces from corner, junction or end to the next one.
std::vector<draw::Segment> straight_runs(const DrawnLine& line);

bool level(const draw::Segment& s);
bool upright(const draw::Segment& s);
/// The least box around a piece.
draw::Box around(const draw::Segment& s);
/// Whether a level or upright piece has a stretch in the inside of a box.
bool passes_inside(const draw::Segment& s, const draw::Box& box);
double distance(draw::Point a, draw::Point b);
/// From a place to the nearest of a piece.
double distance(draw::Point a, const draw::Segment& s);

}  // namespace poise::drawing
