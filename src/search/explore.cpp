// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/explore.hpp"

#include <algorithm>
#include <boost/random/sobol.hpp>
#include <cmath>

namespace poise::search {

std::vector<Point> spread_out(const std::vector<OpenValue>& values, std::size_t count) {
  std::vector<Point> points(count, Point(values.size()));
  if (values.empty()) return points;
  boost::random::sobol sequence(values.size());
  const double range = static_cast<double>(boost::random::sobol::max()) + 1.0;
  for (Point& point : points) {
    for (std::size_t j = 0; j < values.size(); ++j) {
      const double share = static_cast<double>(sequence()) / range;
      const OpenValue& value = values[j];
      const bool word = value.is == OpenValue::Is::word;
      point[j] =
          word ? value.choices[static_cast<std::size_t>(share * static_cast<double>(value.choices.size()))]
               : value.at_share(share);
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
