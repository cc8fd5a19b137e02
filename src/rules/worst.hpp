// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "rules/likewise.hpp"

namespace poise::rules {

/// The worst of several like parts that break a rule alike: one finding tells of it and names the others.
struct Worst {
  int part = -1;
  double by = 0.0;
  std::vector<int> others;  ///< in the job's order

  /// One more part, and how badly.
  void take(int another, double badly) {
    if (part < 0 || badly > by) {
      std::swap(part, another);
      by = badly;
    }
    if (another >= 0) others.insert(std::ranges::upper_bound(others, another), another);
  }
  explicit operator bool() const { return part >= 0; }
  /// "; likewise K2 and K3", or nothing.
  std::string likewise(const Sight& sight) const { return rules::likewise(sight, others); }
};

}  // namespace poise::rules
