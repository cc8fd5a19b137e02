// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/next.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace poise::diagnose {
namespace {

constexpr std::size_t most_suspects = 24;
constexpr double least_share = 0.002;  // of the likeliest; what is less likely is not asked about
constexpr double worth_a_look = 0.02;  // bits

/// The suspects that a next measurement is to tell apart, with shares that add up to 1. What is known
/// beforehand counts with them.
std::vector<Suspect> in_question(const Belief& belief) {
  std::vector<Suspect> all;
  const Suspect& first = belief.suspects().front();
  double sum = 0.0;
  for (const Suspect& suspect : belief.suspects()) {
    if (all.size() == most_suspects || suspect.share < least_share * first.share) break;
    all.push_back(suspect);
    sum += suspect.share;
  }
  for (Suspect& suspect : all) suspect.share /= sum;
  return all;
}

double handiness(const Watch& watch) {
  double handy = 1.0;
  if (watch.instrument == Instrument::portable_gauge) handy = 0.85;
  if (watch.instrument == Instrument::bucket) handy = 0.7;
  if (watch.when == When::half_way) handy *= 0.95;
  if (watch.when == When::starts || watch.when == When::moves) handy *= 0.9;
  return handy;
}

/// Standard deviation of the instrument itself.
double error_of(const Watch& watch) {
  return watch.instrument == Instrument::contact ? 0.25 : 0.5 * watch.accuracy;
}

double bits(double share) { return share > 0.0 ? -share * std::log2(share) : 0.0; }

/// What a value between two would leave open, weighed by how likely it is: the information that a measurement
/// brings about which suspect is the right one (Shannon's mutual information), summed over a fine scale.
double tells(std::span<const Suspect> suspects, std::span<const Expected> expected, double error) {
  double before = 0.0, absent = 0.0, low = 0.0, high = 0.0, narrow = 0.0;
  bool any = false;
  for (std::size_t s = 0; s < suspects.size(); ++s) {
    before += bits(suspects[s].share);
    if (std::isnan(expected[s].value)) {
      absent += suspects[s].share;
      continue;
    }
    const double sigma = std::hypot(expected[s].sigma, error);
    low = any ? std::min(low, expected[s].value - 4.0 * sigma) : expected[s].value - 4.0 * sigma;
    high = any ? std::max(high, expected[s].value + 4.0 * sigma) : expected[s].value + 4.0 * sigma;
    narrow = any ? std::min(narrow, sigma) : sigma;
    any = true;
  }
  double after = 0.0;
  for (std::size_t s = 0; s < suspects.size(); ++s) {
    if (std::isnan(expected[s].value) && absent > 0.0) after += absent * bits(suspects[s].share / absent);
  }
  if (!any || narrow <= 0.0) return before - after;
  const int steps = static_cast<int>(std::clamp(3.0 * (high - low) / narrow, 16.0, 2000.0));
  const double step = (high - low) / steps;
  std::vector<double> share(suspects.size());
  for (int i = 0; i < steps; ++i) {
    const double value = low + (i + 0.5) * step;
    double here = 0.0;
    for (std::size_t s = 0; s < suspects.size(); ++s) {
      if (std::isnan(expected[s].value)) {
        share[s] = 0.0;
        continue;
      }
      const double sigma = std::hypot(expected[s].sigma, error), z = (value - expected[s].value) / sigma;
      share[s] = suspects[s].share * std::exp(-0.5 * z * z) / (sigma * std::sqrt(2.0 * M_PI)) * step;
      here += share[s];
    }
    if (here <= 0.0) continue;
    for (const double each : share) after += here * bits(each / here);
  }
  return std::max(0.0, before - after);
}

}  // namespace

std::vector<Next> next_measurements(const Belief& belief, std::size_t most) {
  const std::vector<Suspect> suspects = in_question(belief);
  std::set<std::size_t> read;
  for (const Reading& reading : belief.readings()) read.insert(reading.watch);
  std::vector<Next> all;
  const auto& watches = belief.atlas().watches;
  for (std::size_t w = 0; w < watches.size(); ++w) {
    if (read.contains(w) || watches[w].when == When::after) continue;
    Next next{.watch = w};
    std::vector<Expected> expected;
    for (const Suspect& suspect : suspects) expected.push_back(belief.foretold(suspect, w));
    next.tells = tells(suspects, expected, error_of(watches[w]));
    if (next.tells < worth_a_look) continue;
    for (std::size_t s = 0; s < suspects.size(); ++s) next.shows.push_back({suspects[s], expected[s]});
    all.push_back(std::move(next));
  }
  std::ranges::stable_sort(all, std::greater{},
                           [&](const Next& next) { return next.tells * handiness(watches[next.watch]); });
  // The same place at another moment, or another place at the same pressure, tells little more.
  std::vector<Next> best;
  for (Next& next : all) {
    if (best.size() == most) break;
    const bool again = std::ranges::any_of(
        best, [&](const Next& other) { return watches[other.watch].at == watches[next.watch].at; });
    if (!again) best.push_back(std::move(next));
  }
  return best;
}

}  // namespace poise::diagnose
