// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/tolerances.hpp"

#include <algorithm>
#include <cmath>

namespace poise::search {
namespace {

constexpr double matters = 1e-4;  // of a share
constexpr double viscosity_within_a_grade = 0.1;

bool operator==(const Deviation& a, const Deviation& b) {
  return a.part == b.part && a.parameter == b.parameter && a.factor == b.factor;
}

bool same(const Corner& a, const Corner& b) {
  return std::ranges::equal(a, b, [](const auto& x, const auto& y) { return x == y; });
}

}  // namespace

std::vector<Tolerance> tolerances_of(const Job& job) {
  std::vector<Tolerance> all{{.part = oils_viscosity, .share = viscosity_within_a_grade}};
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    const Values& values = job.plan.parts[p].values;
    for (int i = 0; i < static_cast<int>(values.table().size()); ++i) {
      const Parameter& line = values.table()[i];
      const double value = values.all()[i];
      if (line.tolerance > 0.0 && !line.against && std::isfinite(value) && value != 0.0)
        all.push_back({p, i, line.tolerance});
    }
  }
  return all;
}

std::vector<Corner> bad_corners(Bench& bench, const Point& about, const std::vector<Tolerance>& tolerances) {
  std::vector<Corner> ends{{}};
  for (const Tolerance& each : tolerances) ends.push_back({{each.part, each.parameter, 1.0 + each.share}});
  const std::vector<Trial> trials = bench.at_corners(about, ends);
  const Trial& nominal = trials.front();
  std::vector<Corner> corners;
  for (std::size_t i = 0; i < nominal.shares.size(); ++i) {
    Corner corner;
    for (std::size_t t = 0; t < tolerances.size(); ++t) {
      const Trial& off = trials[t + 1];
      const bool seen = off.runs && i < off.shares.size();
      const double change =
          seen ? off.shares[i] - nominal.shares[i] : -1.0;  // what cannot run takes all room away
      if (std::abs(change) < matters) continue;
      const double end = change < 0.0 ? 1.0 + tolerances[t].share : 1.0 - tolerances[t].share;
      corner.push_back({tolerances[t].part, tolerances[t].parameter, end});
    }
    if (corner.empty()) continue;
    if (std::ranges::none_of(corners, [&](const Corner& other) { return same(corner, other); }))
      corners.push_back(std::move(corner));
  }
  return corners;
}

}  // namespace poise::search
