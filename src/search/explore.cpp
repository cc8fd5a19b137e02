// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/explore.hpp"

#include <algorithm>
#include <boost/random/sobol.hpp>
#include <cmath>

namespace poise::search {

namespace {

constexpr double near = 0.4;  // of a value's range, about its guess

double word_at(const OpenValue& value, double share) {
  return value.choices[static_cast<std::size_t>(share * static_cast<double>(value.choices.size()))];
}

}  // namespace

std::vector<Point> spread_out(const std::vector<OpenValue>& values, std::size_t count) {
  std::vector<Point> points(count, Point(values.size()));
  if (values.empty()) return points;
  // Every other point of one sequence may lie in one half of a range: each kind of point has its own.
  boost::random::sobol about_guess(values.size()), anywhere(values.size());
  const double range = static_cast<double>(boost::random::sobol::max()) + 1.0;
  for (std::size_t i = 0; i < count; ++i) {
    for (std::size_t j = 0; j < values.size(); ++j) {
      const OpenValue& value = values[j];
      const double share =
          i == 0 ? 0.5 : static_cast<double>(i % 2 == 0 ? about_guess() : anywhere()) / range;
      const double about = value.share_of(value.guess);
      if (!value.has_order()) {
        points[i][j] = i % 2 == 0 ? value.guess : word_at(value, share);
      } else {
        points[i][j] = value.at_share(i % 2 == 0 ? about + near * (share - 0.5) : share);
      }
    }
  }
  return points;
}

std::vector<const Trial*> explore(Bench& bench, std::size_t count) {
  std::vector<const Trial*> trials = bench.at(spread_out(bench.values(), count));
  std::ranges::stable_sort(trials,
                           [](const Trial* a, const Trial* b) { return better(*a, *b, no_limit, 0.0); });
  return trials;
}

}  // namespace poise::search
