// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/settle.hpp"

#include <algorithm>
#include <cmath>

#include "search/graduation.hpp"

namespace poise::search {
namespace {

constexpr std::size_t most_corners = 3;  // settings whose roundings up and down are all tried together
constexpr int rounds = 6;
constexpr double kept = 0.9;
constexpr double slight = 0.005;

struct Grid {
  Bench& bench;
  const units::World& world;
  int degree;

  double step(const Point& point, std::size_t j) const {
    return set_step(point[j], bench.values()[j].quantity, world, degree);
  }
  /// The point with one setting so many steps further, or as it was where that leaves its range.
  Point moved(const Point& point, std::size_t j, double steps) const {
    const OpenValue& value = bench.values()[j];
    Point next = point;
    const double by = step(point, j);
    next[j] = settable(point[j] + steps * by, value.quantity, world, degree);
    if (next[j] < value.low || next[j] <= 0.0)
      next[j] = settable(value.low + 0.5 * by, value.quantity, world, degree);
    if (next[j] > value.high) next[j] = settable(value.high - 0.5 * by, value.quantity, world, degree);
    return next[j] < value.low || next[j] > value.high || next[j] <= 0.0 ? point : next;
  }
  Point rounded(Point point, const std::vector<std::size_t>& settings) const {
    for (const std::size_t j : settings) point = moved(point, j, 0.0);
    return point;
  }
};

const Trial& best_of(const std::vector<const Trial*>& trials) {
  const Trial* best = trials.front();
  for (const Trial* trial : trials) {
    if (better(*trial, *best, no_limit)) best = trial;
  }
  return *best;
}

/// Every way of rounding up and down, or the nearest values where these are too many.
std::vector<Point> roundings(const Grid& grid, const Point& top, const std::vector<std::size_t>& settings) {
  std::vector<Point> points{grid.rounded(top, settings)};
  if (settings.size() > most_corners) return points;
  points.clear();
  for (std::size_t corner = 0; corner < (std::size_t{1} << settings.size()); ++corner) {
    Point point = top;
    for (std::size_t k = 0; k < settings.size(); ++k)
      point = grid.moved(point, settings[k], (corner >> k & 1U) != 0 ? 0.5 : -0.5);
    points.push_back(point);
  }
  return points;
}

/// Two settings of one quantity moved the same way: a rule of the trade often holds one below the other, and
/// then neither gets further alone.
std::vector<Point> together(const Grid& grid, const Point& point, const std::vector<std::size_t>& settings) {
  const std::vector<OpenValue>& values = grid.bench.values();
  std::vector<Point> points{point};
  for (const std::size_t a : settings) {
    for (const std::size_t b : settings) {
      if (b <= a || values[a].quantity != values[b].quantity) continue;
      for (const double steps : {-1.0, 1.0})
        points.push_back(grid.moved(grid.moved(point, a, steps), b, steps));
    }
  }
  return points;
}

const Trial& settled_at(const Grid& grid, const Trial& top, const std::vector<std::size_t>& settings) {
  const Trial* best = &best_of(grid.bench.at(roundings(grid, top.at, settings)));
  for (int round = 0; round < rounds && !grid.bench.stopped(); ++round) {
    std::vector<Point> beside{best->at};
    for (const std::size_t j : settings) {
      for (const double steps : {-1.0, 1.0}) beside.push_back(grid.moved(best->at, j, steps));
    }
    const Trial* next = &best_of(grid.bench.at(beside));
    if (next == best) next = &best_of(grid.bench.at(together(grid, best->at, settings)));
    if (next == best) break;
    best = next;
  }
  return *best;
}

/// Whether the smallest of the shares that rounding has changed is nine tenths of what it was.
bool keeps(const Trial& settled, const Trial& top) {
  if (!settled.runs || settled.missing > top.missing + slight || settled.rules > top.rules + 0.5)
    return false;
  double before = no_limit, after = no_limit;
  for (std::size_t i = 0; i < std::min(top.shares.size(), settled.shares.size()); ++i) {
    if (std::abs(top.shares[i] - settled.shares[i]) < 1e-4) continue;
    before = std::min(before, top.shares[i]);
    after = std::min(after, settled.shares[i]);
  }
  return after == no_limit || after >= std::min(kept * before, before - slight);
}

/// Each setting once more in coarser steps than the others need.
const Trial& coarsened(Bench& bench, const Trial& settled, const Trial& top,
                       const std::vector<std::size_t>& settings, const units::World& world, int degree) {
  const Trial* best = &settled;
  for (const std::size_t j : settings) {
    for (int coarser = 0; coarser < degree; ++coarser) {
      const Grid grid{bench, world, coarser};
      const Trial& trial = bench.at(grid.moved(best->at, j, 0.0));
      if (!keeps(trial, settled) || !keeps(trial, top)) continue;
      best = &trial;
      break;
    }
  }
  return *best;
}

}  // namespace

const Trial& settle(Bench& bench, const Trial& top, const units::World& world) {
  const std::vector<std::size_t> settings = settings_of(bench.values());
  if (settings.empty() || !top.runs) return top;
  const Trial* best = nullptr;
  int degree = 0, degree_of_best = 0;
  for (; degree < degrees && !bench.stopped(); ++degree) {
    const Trial& settled = settled_at({bench, world, degree}, top, settings);
    if (!best || better(settled, *best, no_limit)) {
      best = &settled;
      degree_of_best = degree;
    }
    if (keeps(*best, top)) break;
  }
  return best ? coarsened(bench, *best, top, settings, world, degree_of_best) : top;
}

}  // namespace poise::search
