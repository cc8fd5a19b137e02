// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/tolerances.hpp"

#include <algorithm>
#include <cmath>

namespace poise::search {
namespace {

constexpr double matters = 1e-4;  // of a share

bool same(const Deviation& a, const Deviation& b) {
  return a.loose.of == b.loose.of && a.loose.part == b.loose.part && a.loose.parameter == b.loose.parameter &&
         a.u == b.u;
}

bool same(const Corner& a, const Corner& b) {
  return std::ranges::equal(a, b, [](const auto& x, const auto& y) { return same(x, y); });
}

/// The end at which a value is tried: the upper one, where it can be off that way.
double tried_end(const Loose& loose) { return loose.tolerance.above > 0.0 ? 1.0 : -1.0; }

}  // namespace

std::vector<Corner> bad_corners(Bench& bench, const Point& about, const std::vector<Loose>& loose) {
  std::vector<Corner> ends{{}};
  for (const Loose& each : loose) ends.push_back({{each, tried_end(each)}});
  const std::vector<Trial> trials = bench.at_corners(about, ends);
  const Trial& nominal = trials.front();
  std::vector<Corner> corners;
  for (std::size_t i = 0; i < nominal.shares.size(); ++i) {
    Corner corner;
    for (std::size_t t = 0; t < loose.size(); ++t) {
      const Trial& off = trials[t + 1];
      const bool seen = off.runs && i < off.shares.size();
      const double change =
          seen ? off.shares[i] - nominal.shares[i] : -1.0;  // what cannot run takes all room away
      if (std::abs(change) < matters) continue;
      corner.push_back({loose[t], change < 0.0 ? tried_end(loose[t]) : -tried_end(loose[t])});
    }
    if (corner.empty()) continue;
    if (std::ranges::none_of(corners, [&](const Corner& other) { return same(corner, other); }))
      corners.push_back(std::move(corner));
  }
  return corners;
}

}  // namespace poise::search
