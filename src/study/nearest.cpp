// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/nearest.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace poise::study {
namespace {

constexpr double matters = 0.95;  // what the values named must take of a margin before others are left out
constexpr int halvings = 5;

double loss(const Pull& pull) { return std::max({pull.down, pull.up, 0.0}); }

double worse_way(const Pull& pull) { return pull.up >= pull.down ? 1.0 : -1.0; }

double reach_of(const std::vector<double>& off) {
  double reach = 0.0;
  for (const double each : off) reach = std::max(reach, std::abs(each));
  return reach;
}

double length_of(const std::vector<double>& off) {
  return std::sqrt(std::inner_product(off.begin(), off.end(), off.begin(), 0.0));
}

std::vector<double> scaled(const std::vector<double>& off, double by) {
  std::vector<double> result = off;
  for (double& each : result) each *= by;
  return result;
}

/// The size of the step at which values that go with it, none beyond its end, take the whole margin.
double step_for(double margin, const std::vector<double>& losses) {
  double low = 0.0, high = 1.0 / *std::ranges::min_element(losses);
  for (int i = 0; i < 100; ++i) {
    const double middle = (low + high) / 2.0;
    double taken = 0.0;
    for (const double each : losses) taken += each * std::min(1.0, middle * each);
    (taken < margin ? low : high) = middle;
  }
  return high;
}

struct Broken {
  double at = 0.0;
  Kept kept;
};

/// The nearest place on a way from the stated machine (0) at which a promise breaks, between one where it
/// holds and one where it does not.
std::optional<Broken> halved(const std::vector<double>& way, double held, Broken broken,
                             const RunPromise& run) {
  for (int i = 0; i < halvings; ++i) {
    const double middle = (held + broken.at) / 2.0;
    const auto kept = run(scaled(way, middle));
    if (!kept) return std::nullopt;
    if (kept->mark != Mark::broken)
      held = middle;
    else
      broken = {middle, *kept};
  }
  return broken;
}

/// Along a way: whether and where it breaks. `found` false where it never does.
std::optional<Nearest> along(const std::vector<double>& way, const RunPromise& run) {
  const double farthest = farthest_reach / reach_of(way);
  double held = 0.0;
  for (double at = 1.0; held < farthest; at = std::min(at * 1.25, farthest)) {
    const auto kept = run(scaled(way, at));
    if (!kept) return std::nullopt;
    if (kept->mark == Mark::broken) {
      const auto broken = halved(way, held, {at, *kept}, run);
      if (!broken) return std::nullopt;
      const std::vector<double> off = scaled(way, broken->at);
      return Nearest{true, reach_of(off), off, broken->kept};
    }
    held = at;
  }
  return Nearest{};
}

/// Puts values of a broken machine back as stated while it stays broken, those first that matter least, in
/// lots that grow smaller where one of them is needed.
std::optional<std::vector<double>> put_back(std::vector<double> off, const std::vector<Pull>& pulls,
                                            const RunPromise& run) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < off.size(); ++i) {
    if (off[i] != 0.0) order.push_back(i);
  }
  std::ranges::stable_sort(order, {}, [&](std::size_t i) {
    return std::abs(off[i]) * (off[i] < 0.0 ? pulls[i].down : pulls[i].up);
  });
  const auto half_of_rest = [&](std::size_t from) {
    return std::max<std::size_t>(1, (order.size() - from) / 2);
  };
  for (std::size_t from = 0, lot = half_of_rest(0); from < order.size();) {
    std::vector<double> less = off;
    const std::size_t to = std::min(from + lot, order.size());
    for (std::size_t i = from; i < to; ++i) less[order[i]] = 0.0;
    const auto kept = run(less);
    if (!kept) return std::nullopt;
    if (kept->mark == Mark::broken) {
      off = std::move(less);
      from = to;
    } else if (lot > 1) {
      lot /= 2;
    } else {
      ++from;
      lot = half_of_rest(from);
    }
  }
  return off;
}

}  // namespace

std::vector<double> foretold(double margin, const std::vector<Pull>& pulls) {
  std::vector<std::size_t> order;
  double most = 0.0;
  for (std::size_t i = 0; i < pulls.size(); ++i) {
    if (loss(pulls[i]) > 0.0) order.push_back(i);
    most += loss(pulls[i]);
  }
  std::vector<double> off(pulls.size(), 0.0);
  if (order.empty()) return {};
  std::ranges::stable_sort(order, std::ranges::greater{}, [&](std::size_t i) { return loss(pulls[i]); });
  // Few values that take most of it are worth more to a reader than all that take a little.
  const auto losses_of_first = [&](std::size_t count) {
    std::vector<double> losses;
    for (std::size_t i = 0; i < count; ++i) losses.push_back(loss(pulls[order[i]]));
    return losses;
  };
  double squares = 0.0, of_first = 0.0, taken = 0.0;
  for (const std::size_t i : order) squares += loss(pulls[i]) * loss(pulls[i]);
  const bool suffice = most > margin && margin > 0.0;
  std::size_t count = 0;
  while (count < order.size() && (of_first < matters * squares || (suffice && taken <= margin))) {
    of_first += loss(pulls[order[count]]) * loss(pulls[order[count]]);
    taken += loss(pulls[order[count]]);
    ++count;
  }
  if (!suffice) {
    for (std::size_t i = 0; i < count; ++i) off[order[i]] = worse_way(pulls[order[i]]);
    return off;
  }
  const double step = step_for(margin, losses_of_first(count));
  for (std::size_t i = 0; i < count; ++i) {
    const Pull& pull = pulls[order[i]];
    off[order[i]] = worse_way(pull) * std::min(1.0, step * loss(pull));
  }
  return off;
}

std::optional<Nearest> nearest(double margin, const std::vector<Pull>& pulls,
                               const std::vector<double>* known, const RunPromise& run) {
  Nearest best{.off = std::vector<double>(pulls.size(), 0.0)};
  const std::vector<double> way = foretold(margin, pulls);
  if (reach_of(way) > 0.0) {
    const auto found = along(way, run);
    if (!found) return std::nullopt;
    if (found->found) best = *found;
  }
  const bool near_enough =
      best.found && best.reach <= 1.0 && known && length_of(best.off) <= length_of(*known);
  if (!known || near_enough) return best;
  const auto needed = put_back(*known, pulls, run);
  if (!needed) return std::nullopt;
  const auto kept = run(*needed);
  if (!kept) return std::nullopt;
  const auto broken = halved(*needed, 0.0, {1.0, *kept}, run);
  if (!broken) return std::nullopt;
  const std::vector<double> off = scaled(*needed, broken->at);
  const bool inside = best.reach <= 1.0 || reach_of(off) > 1.0;
  if (best.found && inside && length_of(best.off) <= length_of(off)) return best;
  return Nearest{true, reach_of(off), off, broken->kept};
}

}  // namespace poise::study
