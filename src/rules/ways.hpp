// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <set>
#include <vector>

#include "rules/sight.hpp"

namespace poise::rules {

/// All groups that something in the oil gets to from one. Where it stands at a main port of a part it goes on
/// to the ports that `outlets` names for that one; it goes no further from a group that it `stops_at`.
template <class StopsAt, class Outlets>
std::set<int> groups_from(const Sight& sight, int from, StopsAt stops_at, Outlets outlets) {
  std::set<int> seen{from};
  std::vector<int> to_visit{from};
  while (!to_visit.empty()) {
    const int here = to_visit.back();
    to_visit.pop_back();
    if (stops_at(here)) continue;
    for (const PortOf& at : sight.members(here)) {
      const Port& port = sight.plan.port(at);
      if (port.domain != Domain::oil || port.pilot) continue;
      for (const PortOf& other : outlets(at)) {
        if (seen.insert(sight.group(other)).second) to_visit.push_back(sight.group(other));
      }
    }
  }
  return seen;
}

}  // namespace poise::rules
