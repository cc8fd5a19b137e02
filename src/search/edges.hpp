// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "search/bench.hpp"

namespace poise::search {

/// How far one value can go, the others as found, before something breaks that holds.
struct Edge {
  std::optional<double> good{};  ///< the last value that was seen to hold; none: not looked for
  std::optional<double> at{};    ///< the first value that was seen to break; none: none was met
  bool to_the_end = false;       ///< it holds to the end of its range
  std::string breaks{};          ///< the requirement, or the rule, that breaks there
  bool is_rule = false;
};
struct Edges {
  Edge below, above;
};

/// What breaks in a trial and does not in the one found; nothing where nothing does. `at` is left open.
Edge what_breaks(const Trial& trial, const Trial& found);

/// The edges of every value about a trial: settings to a twentieth of the way to the edge, sizes by the
/// next that breaks.
std::vector<Edges> edges_of(Bench& bench, const Trial& found);

}  // namespace poise::search
