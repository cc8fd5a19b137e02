// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/conflict.hpp"

#include <algorithm>
#include <array>

#include "search/climb.hpp"

namespace poise::search {
namespace {

using Set = std::vector<std::size_t>;  // places of promises among the shares, rising

constexpr std::size_t largest_set = 4;
constexpr std::size_t starts = 3;
constexpr int iterations = 16;
constexpr int scans = 4;

double share_of(const Trial& trial, std::size_t i) {
  return trial.runs && i < trial.shares.size() ? trial.shares[i] : unseen_share;
}

bool holds(const Trial& trial, const Set& set) {
  return std::ranges::all_of(set, [&](std::size_t i) { return holds_as_far_as_seen(trial, i); });
}

double missing(const Trial& trial, const Set& set) {
  double sum = 0.0;
  for (const std::size_t i : set) sum += holds_as_far_as_seen(trial, i) ? 0.0 : -share_of(trial, i);
  return sum;
}

class Search {
 public:
  Search(Bench& bench, const Trial& best, long most_runs)
      : bench_(bench), best_(best), last_run_(bench.runs() + most_runs) {}

  std::vector<Set> smallest() {
    std::vector<Set> found;
    for (std::size_t size = 1; size <= largest_set && found.empty(); ++size) {
      Set set;
      try_sets(set, size, found);
    }
    return found;
  }

  /// The trial in which one promise of a set gets nearest to holding while the others do.
  const Trial* nearest(const Set& set, std::size_t one) {
    Set others = set;
    std::erase(others, one);
    if (const Trial* start = best_with(others, one)) {
      climb(bench_, *start,
            {.moving = settings(),
             .radius = 0.2,
             .iterations = iterations,
             .next_smallest = false,
             .only = set,
             .kept = others});
    }
    const Trial* best = best_with(others, one);
    for (int round = 0; best && round < scans && may_go_on(); ++round) {
      bench_.at(about(*best));
      const Trial* next = best_with(others, one);
      if (next == best) break;
      best = next;
    }
    return best;
  }

 private:
  bool may_go_on() const { return !bench_.stopped() && bench_.runs() < last_run_; }

  /// Each setting alone a little and a lot further: past flat stretches, and close to an edge, where slopes
  /// say nothing.
  std::vector<Point> about(const Trial& trial) const {
    constexpr std::array steps{0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.4};
    std::vector<Point> points;
    for (const std::size_t j : settings()) {
      const OpenValue& value = bench_.values()[j];
      for (const double step : steps) {
        for (const double direction : {-1.0, 1.0}) {
          points.push_back(trial.at);
          points.back()[j] = value.at_share(value.share_of(trial.at[j]) + direction * step);
        }
      }
    }
    return points;
  }

  std::vector<std::size_t> settings() const { return settings_of(bench_.values()); }

  /// Whether all choices of a trial are such as there are, not between two.
  bool is_real(const Trial& trial) const {
    for (std::size_t j = 0; j < trial.at.size(); ++j) {
      const OpenValue& value = bench_.values()[j];
      if (value.chosen() && std::ranges::find(value.choices, trial.at[j]) == value.choices.end())
        return false;
    }
    return trial.runs;
  }

  bool ever_held(const Set& set) const {
    return std::ranges::any_of(
        bench_.tried(), [&](const auto& each) { return is_real(*each.second) && holds(*each.second, set); });
  }

  const Trial* best_with(const Set& others, std::size_t one) const {
    const Trial* best = nullptr;
    for (const auto& [point, trial] : bench_.tried()) {
      if (!is_real(*trial) || !holds(*trial, others)) continue;
      if (!best || share_of(*trial, one) > share_of(*best, one)) best = trial.get();
    }
    return best;
  }

  /// Tries on purpose to hold a set, from the trials that miss least of it. True: it holds somewhere.
  bool can_be_held(const Set& set) {
    std::vector<const Trial*> from;
    for (const auto& [point, trial] : bench_.tried()) {
      if (is_real(*trial)) from.push_back(trial.get());
    }
    std::ranges::stable_sort(from, {}, [&](const Trial* trial) { return missing(*trial, set); });
    if (from.size() > starts) from.resize(starts);
    for (const Trial* start : from) {
      if (!may_go_on()) break;
      climb(bench_, *start,
            {.moving = settings(),
             .radius = 0.2,
             .iterations = iterations,
             .next_smallest = false,
             .only = set});
      if (ever_held(set)) return true;
    }
    return false;
  }

  /// All sets of a size that nothing has held so far and that cannot be made to hold; none contains another.
  void try_sets(Set& set, std::size_t size, std::vector<Set>& found) {
    if (set.size() == size) {
      // What there was no time to try is no conflict.
      if (!ever_held(set) && !can_be_held(set) && may_go_on()) found.push_back(set);
      return;
    }
    for (std::size_t i = set.empty() ? 0 : set.back() + 1; i < best_.shares.size() && may_go_on(); ++i) {
      set.push_back(i);
      try_sets(set, size, found);
      set.pop_back();
    }
  }

  Bench& bench_;
  const Trial& best_;
  long last_run_;
};

Side side_of(const Trial* nearest, const Trial& best, std::size_t place) {
  const Finding& finding = finding_of(nearest ? *nearest : best, place);
  Side side{.name = finding.name,
            .promised = finding.promised,
            .gives = finding.found,
            .quantity = finding.quantity};
  if (!finding.held && finding.margin) side.short_by = -*finding.margin;
  return side;
}

}  // namespace

std::vector<Conflict> conflicts_of(Bench& bench, const Trial& best, long most_runs) {
  std::vector<Conflict> conflicts;
  if (!best.runs) return conflicts;
  Search search(bench, best, most_runs);
  for (const Set& set : search.smallest()) {
    Conflict conflict;
    for (const std::size_t one : set) conflict.sides.push_back(side_of(search.nearest(set, one), best, one));
    conflicts.push_back(std::move(conflict));
  }
  return conflicts;
}

}  // namespace poise::search
