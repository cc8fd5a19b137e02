// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/shelf.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "circuit/rating.hpp"
#include "search/bounds.hpp"

namespace poise::search {
namespace {

constexpr double over_rated_flow =
    1.05;  // it only names the drop: a little more is none the worse (common practice)
constexpr double rounding = 1e-6;  // the same value in two units

std::string in_words(std::string_view name) {
  std::string words(name);
  std::ranges::replace(words, '_', ' ');
  return words;
}

/// What closed forms bound: sizes and the delivery of sources.
bool is_bounded(const Kind& kind, const Parameter& line) {
  const bool delivery =
      line.quantity == Quantity::flow && line.name == "flow" && kind.about.role == Role::source;
  return delivery || line.series == Series::bores || line.series == Series::strokes ||
         line.series == Series::hose_bores || line.series == Series::tube_bores;
}

class Sorter {
 public:
  Sorter(const Job& job, const Sought& sought)
      : job_(job), sought_(sought), part_(job.plan.parts[sought.part]), table_(part_.kind->parameters) {}

  /// Why the item cannot be the part; empty where it can.
  std::string why_not(const StockItem& item) const {
    for (int i = 0; i < static_cast<int>(table_.size()); ++i) {
      const std::string why = is_stated(i) ? against_the_job(item, i) : by_itself(item, i);
      if (!why.empty()) return why;
    }
    return {};
  }

 private:
  bool is_stated(int i) const { return std::ranges::find(sought_.stated, i) != sought_.stated.end(); }
  bool is_open(int i) const {
    return std::ranges::any_of(job_.sought, [&](const Sought& other) {
      return other.of == Sought::Of::part && other.part == sought_.part && other.parameter == i;
    });
  }
  std::string shown(double value, const Parameter& line) const {
    if (!line.words.empty()) return std::string(line.words[static_cast<std::size_t>(value)]);
    return units::show(value, line.quantity, job_.world);
  }

  std::string against_the_job(const StockItem& item, int i) const {
    const Parameter& line = table_[i];
    const bool given = item.given.given(line.name);
    if (is_open(i))
      return given ? fmt::format("its {} is fixed, and the job leaves it open", in_words(line.name)) : "";
    if (line.against) return given ? fmt::format("has a {} of its own", in_words(line.name)) : "";
    const double here = part_.values.all()[i];
    if (given) {
      const double there = item.given.all()[i];
      if (std::abs(here - there) <= rounding * std::max(std::abs(here), std::abs(there))) return {};
      return fmt::format("{} {}, the job states {}", in_words(line.name), shown(there, line),
                         shown(here, line));
    }
    const AdjustableRange* range = item.range_of(i);
    if (!range || (here >= range->from * (1.0 - rounding) && here <= range->to * (1.0 + rounding))) return {};
    return fmt::format("{} from {} to {}, the job sets {}", in_words(line.name), shown(range->from, line),
                       shown(range->to, line), shown(here, line));
  }

  std::string by_itself(const StockItem& item, int i) const {
    const Parameter& line = table_[i];
    const bool given = item.given.given(line.name);
    const bool instead = !line.instead.empty() && (item.given.given(line.instead) || states(line.instead));
    if (!given && !line.fallback && !line.optional && !instead)
      return fmt::format("the list does not state its {}", in_words(line.name));
    if (!given || !is_bounded(*part_.kind, line)) return {};
    const Range range = range_of(job_, sought_.part, i);
    const double value = item.given.all()[i];
    if (value < range.low * (1.0 - rounding))
      return fmt::format("{} {}, needs at least {}", in_words(line.name), shown(value, line),
                         shown(range.low, line));
    if (value > range.high * (1.0 + rounding))
      return fmt::format("{} {}, {} is the most that makes sense", in_words(line.name), shown(value, line),
                         shown(range.high, line));
    return {};
  }

  bool states(std::string_view name) const {
    const auto i = find_parameter(table_, name);
    return i && is_stated(*i);
  }

  const Job& job_;
  const Sought& sought_;
  const PlannedPart& part_;
  std::span<const Parameter> table_;
};

std::optional<double> given(const StockItem& item, std::string_view name) {
  if (!find_parameter(item.given.table(), name) || !item.given.given(name)) return std::nullopt;
  return item.given[name];
}

bool lets_oil_through(const Kind& kind) {
  return kind.about.role != Role::source && kind.about.role != Role::actuator &&
         kind.about.role != Role::reservoir;
}

/// What parts will have to stand: the lowest limit that a requirement sets a pressure, and the rating and
/// delivery of the sources that are not open themselves.
Seen expected(const Job& job) {
  Seen seen;
  for (const Requirement& requirement : job.requirements) {
    const auto* never = std::get_if<Never>(&requirement.what);
    if (!never || !never->above || never->signal.quantity != Quantity::pressure) continue;
    seen.pressure = seen.pressure > 0.0 ? std::min(seen.pressure, never->limit) : never->limit;
  }
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    const PlannedPart& part = job.plan.parts[static_cast<std::size_t>(p)];
    const bool open = std::ranges::any_of(
        job.sought, [&](const Sought& other) { return other.of == Sought::Of::model && other.part == p; });
    if (open || part.kind->about.role != Role::source) continue;
    const auto value = [&](std::string_view name) {
      return find_parameter(part.kind->parameters, name) && part.values.given(name) ? part.values[name] : 0.0;
    };
    seen.pressure = std::max(seen.pressure, value("rated_pressure"));
    seen.flow = std::max(seen.flow, value("flow"));
  }
  return seen;
}

/// Whether an item can be brought to the guesses of its part's open settings.
bool reaches_guess(const Job& job, int part, const StockItem& item) {
  return std::ranges::all_of(item.adjustable, [&](const AdjustableRange& range) {
    const Range wanted = range_of(job, part, range.parameter);
    return !wanted.guess || (*wanted.guess >= range.from && *wanted.guess <= range.to);
  });
}

/// How far an item is from the guesses of its bounded values, in ratios.
double far_from_guess(const Job& job, int part, const StockItem& item) {
  double far = 0.0;
  for (int i = 0; i < static_cast<int>(item.given.table().size()); ++i) {
    const Parameter& line = item.given.table()[i];
    if (!is_bounded(*item.kind, line) || !item.given.given(line.name)) continue;
    const Range range = range_of(job, part, i);
    if (range.guess && *range.guess > 0.0) far += std::abs(std::log(item.given.all()[i] / *range.guess));
  }
  return far;
}

}  // namespace

Shelf shelf_of(const Job& job, const Sought& sought) {
  Shelf shelf;
  const Sorter sorter(job, sought);
  for (const StockItem& item : job.stock->items) {
    if (item.kind != job.plan.parts[sought.part].kind) continue;
    std::string why = sorter.why_not(item);
    if (why.empty())
      shelf.fits.push_back(&item);
    else
      shelf.rejected.push_back({&item, std::move(why)});
  }
  std::ranges::stable_sort(shelf.fits, {}, &StockItem::cost);
  return shelf;
}

std::string too_weak(const StockItem& item, const Seen& seen, const units::World& world) {
  const auto rated = given(item, "rated_pressure");
  if (rated && seen.pressure > rating_from(*rated).alarm) {
    return fmt::format("rated pressure {}, sees {}", units::show(*rated, Quantity::pressure, world),
                       units::show(seen.pressure, Quantity::pressure, world));
  }
  const auto flow = given(item, "rated_flow");
  if (flow && lets_oil_through(*item.kind) && seen.flow > over_rated_flow * *flow) {
    return fmt::format("rated flow {}, needs {}", units::show(*flow, Quantity::flow, world),
                       units::show(seen.flow, Quantity::flow, world));
  }
  return {};
}

std::size_t likeliest(const Job& job, const Sought& sought, const std::vector<const StockItem*>& items) {
  const Seen seen = expected(job);
  std::vector<std::pair<double, std::size_t>> order;
  for (std::size_t i = 0; i < items.size(); ++i) {
    const double weak = too_weak(*items[i], seen, job.world).empty() ? 0.0 : 100.0;
    const double out_of_reach = reaches_guess(job, sought.part, *items[i]) ? 0.0 : 100.0;
    order.emplace_back(weak + out_of_reach + far_from_guess(job, sought.part, *items[i]), i);
  }
  return order.empty() ? 0 : std::ranges::min_element(order)->second;
}

}  // namespace poise::search
