// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "circuit/heat_balance.hpp"
#include "job/job.hpp"
#include "judge/verdict.hpp"
#include "trace/trace.hpp"

namespace poise::search {

/// How a cycle is repeated.
struct WarmUpWish {
  double start = 0.0;  ///< K, temperature of the oil as the shift begins
  std::optional<double>
      every{};  ///< s from the beginning of one cycle to that of the next; else without a pause
  double hottest = 273.15 + 90.0;                ///< K, above which no balance is looked for
  std::function<bool(double share)> progress{};  ///< says false to stop; may be empty
};

/// The job's cycle proven at one oil temperature.
struct AtTemperature {
  double temperature = 0.0;  ///< K
  double viscosity = 0.0;    ///< m2/s
  double heat = 0.0;         ///< W, the heat of a cycle over its period
  Verdict verdict;
  std::vector<double> heat_of_part;  ///< W each
};

/// What becomes of the oil's temperature when a cycle goes on and on.
struct WarmUp {
  HeatBalance balance;
  double period = 0.0;  ///< s
  std::vector<AtTemperature>
      proven;                    ///< rising temperatures; the first is the start, the last the steady one
  std::optional<double> steady;  ///< K; none: it gets hotter than the wish allows
  std::vector<WarmUpPoint> curve;
  /// When the oil first gets to a temperature; none: never.
  std::optional<double> time_to(double temperature) const;
  bool stopped = false;
};

/// Repeats a job's cycle: the heat P(T) comes from proving it at several temperatures, the rest from the
/// circuit's heat balance. One temperature for all oil and the steel around it; the heat of pump and rubbing
/// counts as the oil's.
WarmUp warm_up(const Job& job, const WarmUpWish& wish);

}  // namespace poise::search
