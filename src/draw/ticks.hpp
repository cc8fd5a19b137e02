// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

namespace poise::draw {

/// Round numbers along an axis: multiples of 1, 2 or 5 times a power of ten.
struct Ticks {
  double step = 1.0;
  int decimals = 0;  ///< that a label needs so that no two look alike
  std::vector<double> at;
};

/// All multiples, within low ≤ high, of the least such step that gives no more than `most` (at least 2) of
/// them.
Ticks nice_ticks(double low, double high, int most);

/// The number at a tick as it is written beside the axis.
std::string tick_label(double value, const Ticks& ticks);

}  // namespace poise::draw
