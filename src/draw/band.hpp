// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "draw/axis.hpp"
#include "draw/marks.hpp"

namespace poise::draw {

/// What one part does over the steps: a line between levels, or stretches of time in which oil passes.
struct Band {
  std::string tag, what;  ///< "K1", "swing clamp"
  struct Level {
    double at = 0.0;  ///< 0 is the lower edge of the band, 1 the upper
    std::string name;
  };
  std::vector<Level> levels;
  std::vector<Point> course;  ///< time, s, and level
  bool moves = false;         ///< something that moves, rather than a state
  struct Open {
    double begin = 0.0, end = 0.0;  ///< s
    bool backwards = false;
    std::string way;  ///< "A to B"
  };
  std::vector<Open> open;
  std::string title;  ///< in words, for those who cannot see it
};

/// Room left of the time axis for tag, kind and levels, and the least height of a band, mm.
inline constexpr double band_room = 44.0, least_band = 5.6;

Group draw_band(const Band& band, const TimeAxis& time, double left, double low, double high);

}  // namespace poise::draw
