// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "rules/likewise.hpp"

namespace poise::rules {

/// Several places that break a rule alike: the worst is told, the others are named.
template <class Place>
class Alike {
 public:
  /// `by`: how badly, the greater the worse.
  void add(Place place, int part, double by) {
    if (!parts_.empty() && by <= by_) {
      parts_.push_back(part);
      return;
    }
    worst_ = std::move(place);
    by_ = by;
    parts_.insert(parts_.begin(), part);
  }
  explicit operator bool() const { return !parts_.empty(); }
  const Place& worst() const { return worst_; }
  int part() const { return parts_.front(); }
  /// The others, without the worst, in the job's order.
  std::vector<int> rest() const {
    std::vector<int> others(parts_.begin() + (parts_.empty() ? 0 : 1), parts_.end());
    std::ranges::sort(others);
    return others;
  }
  /// "; likewise K2 and K3", or nothing: at the end of a sentence.
  std::string others(const Sight& sight) const { return likewise(sight, rest()); }

 private:
  Place worst_{};
  double by_ = 0.0;
  std::vector<int> parts_;
};

}  // namespace poise::rules
