// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/open_value.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include "job/tolerance.hpp"

namespace poise::search {
namespace {

constexpr double wide = 3.0;

bool by_ratio(const OpenValue& value) { return value.low > 0.0 && value.high > wide * value.low; }

}  // namespace

std::vector<std::size_t> settings_of(const std::vector<OpenValue>& values) {
  std::vector<std::size_t> all;
  for (std::size_t j = 0; j < values.size(); ++j) {
    if (!values[j].chosen()) all.push_back(j);
  }
  return all;
}

bool has_choices(const std::vector<OpenValue>& values) {
  return std::ranges::any_of(values, &OpenValue::chosen);
}

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

namespace {

/// What the item states, and the kind's defaults, wherever the job states nothing.
void take(Values& values, const StockItem& item, const std::vector<int>& stated) {
  for (int i = 0; i < static_cast<int>(values.table().size()); ++i) {
    if (std::ranges::find(stated, i) != stated.end()) continue;
    const Parameter& line = values.table()[i];
    const bool given = item.given.given(line.name);
    if (line.against) {  // a curve of the item that stood in must not stay
      const auto points = item.given.points(line.name);
      values.set_points(i, Points(points.begin(), points.end()));
    }
    values.set(
        i, given ? item.given.all()[i] : line.fallback.value_or(std::numeric_limits<double>::quiet_NaN()));
  }
}

bool can_be_set(const Values& values, const StockItem& item) {
  return std::ranges::all_of(item.adjustable, [&](const AdjustableRange& range) {
    const double value = values.all()[range.parameter];
    return !std::isfinite(value) || (value >= range.from * (1.0 - 1e-9) && value <= range.to * (1.0 + 1e-9));
  });
}

}  // namespace

std::optional<Job> with_values(const Job& job, const std::vector<OpenValue>& values, const Point& point) {
  Job filled = job;
  filled.sought.clear();
  std::set<int> changed;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const Sought& at = values[i].at;
    if (at.of == Sought::Of::model) {
      const StockItem& item = *values[i].items[static_cast<std::size_t>(point[i])];
      take(filled.plan.parts[at.part].values, item, at.stated);
      job::take_tolerances(filled, at.part, item);
      changed.insert(at.part);
    } else if (at.of == Sought::Of::command) {
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
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (values[i].is != OpenValue::Is::model) continue;
    const StockItem& item = *values[i].items[static_cast<std::size_t>(point[i])];
    if (!can_be_set(filled.plan.parts[values[i].at.part].values, item)) return std::nullopt;
  }
  return filled;
}

}  // namespace poise::search
