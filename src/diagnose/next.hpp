// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "diagnose/belief.hpp"

namespace poise::diagnose {

/// A measurement that has not been made, and how much it would tell.
struct Next {
  std::size_t watch = 0;
  double tells = 0.0;  ///< bits by which it is expected to narrow down what is wrong
  /// What it would show with each of the likeliest suspects, in their order.
  struct Shows {
    Suspect suspect;
    Expected expected;
  };
  std::vector<Shows> shows{};
};

/// The measurements that would tell most among those of the atlas, the best first; what is handier goes
/// before what tells about as much. Empty where none tells anything.
std::vector<Next> next_measurements(const Belief& belief, std::size_t most = 3);

}  // namespace poise::diagnose
