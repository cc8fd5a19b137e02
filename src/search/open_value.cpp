// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/open_value.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace poise::search {
namespace {

constexpr double wide = 3.0;

bool by_ratio(const OpenValue& value) { return value.low > 0.0 && value.high > wide * value.low; }

}  // namespace

double OpenValue::share_of(double value) const {
  if (!(high > low)) return 0.0;
  const double share =
      by_ratio(*this) ? std::log(value / low) / std::log(high / low) : (value - low) / (high - low);
  return std::clamp(share, 0.0, 1.0);
}

double OpenValue::at_share(double share) const {
  if (share <= 0.0) return low;
  if (share >= 1.0) return high;
  return by_ratio(*this) ? low * std::pow(high / low, share) : low + share * (high - low);
}

std::optional<Job> with_values(const Job& job, const std::vector<OpenValue>& values, const Point& point) {
  Job filled = job;
  filled.sought.clear();
  std::set<int> changed;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const Sought& at = values[i].at;
    if (at.of == Sought::Of::command) {
      filled.steps[at.step].commands[at.command].target = point[i];
    } else {
      filled.plan.parts[at.part].values.set(at.parameter, point[i]);
      changed.insert(at.part);
    }
  }
  for (const int part : changed) {
    const PlannedPart& planned = filled.plan.parts[part];
    if (!planned.kind->check(planned.values).empty()) return std::nullopt;
  }
  return filled;
}

}  // namespace poise::search
