// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/harden.hpp"

#include <algorithm>

#include "search/choose.hpp"
#include "search/climb.hpp"
#include "search/settle.hpp"
#include "search/tolerances.hpp"

namespace poise::search {
namespace {

constexpr int rounds = 2;
constexpr int iterations = 5;
constexpr long runs_on_choices = 2000;   // where the sizes that do at nominal values do not at the bad end
constexpr std::size_t most_corners = 4;  // looked at in every trial

/// Of many corners those with the least room, each the worst of some promise.
std::vector<Corner> tightest(Bench& bench, const Point& point, std::vector<Corner> corners) {
  const std::vector<Trial> trials = bench.at_corners(point, corners);
  std::vector<std::pair<double, std::size_t>> order;
  for (std::size_t c = 0; c < corners.size(); ++c) order.emplace_back(trials[c].smallest(), c);
  std::ranges::sort(order);
  if (order.size() > most_corners) order.resize(most_corners);
  std::vector<Corner> kept;
  for (const auto& [room, c] : order) kept.push_back(std::move(corners[c]));
  return kept;
}

}  // namespace

const Trial& harden(Bench& bench, const Point& from, const Job& job, double enough) {
  const std::optional<Job> filled = with_values(job, bench.values(), from);
  const std::vector<Loose> tolerances = loose_values(filled ? *filled : job);
  Point point = from;
  std::vector<Corner> corners;
  for (int round = 0; round < rounds && !bench.stopped(); ++round) {
    std::vector<Corner> found = bad_corners(bench, point, tolerances);
    std::ranges::copy(corners, std::back_inserter(found));
    corners = tightest(bench, point, std::move(found));
    bench.judge_at(corners);
    const Trial* start = &bench.at(point);
    if (round == 0 && !start->holds() && has_choices(bench.values()))
      start = &choose(bench, *start, {.enough = enough, .most_runs = bench.runs() + runs_on_choices});
    const Trial& top = climb(bench, *start,
                             {.moving = settings_of(bench.values()),
                              .radius = 0.1,
                              .iterations = iterations,
                              .next_smallest = false});
    const Trial& settled = settle(bench, top, job.world);
    const bool stays = settled.at == point;
    point = settled.at;
    if (stays) break;
  }
  return bench.at(point);
}

}  // namespace poise::search
