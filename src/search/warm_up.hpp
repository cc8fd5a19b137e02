// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

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

/// A moment of the warm-up.
struct WarmUpPoint {
  double time = 0.0, temperature = 0.0;
};

/// What becomes of the oil's temperature when a cycle goes on and on.
struct WarmUp {
  double capacity = 0.0;      ///< J/K of oil and steel
  double conductance = 0.0;   ///< W/K to the surroundings
  double surroundings = 0.0;  ///< K, the mean that the conductances see
  double period = 0.0;        ///< s
  std::vector<AtTemperature>
      proven;                    ///< rising temperatures; the first is the start, the last the steady one
  std::optional<double> steady;  ///< K; none: it gets hotter than the wish allows
  std::vector<WarmUpPoint> curve;
  /// When the oil first gets to a temperature; none: never.
  std::optional<double> time_to(double temperature) const;
  bool stopped = false;
};

/// Heat balance of the whole circuit as one body: C·dT/dt = P(T) − U·(T − T_surroundings), with P(T) from
/// proving the cycle at several temperatures. One temperature for all oil and the steel around it; the heat
/// of the pump and of rubbing counts as the oil's.
WarmUp warm_up(const Job& job, const WarmUpWish& wish);

}  // namespace poise::search
