// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "study/drivers.hpp"
#include "study/nearest.hpp"
#include "study/row.hpp"
#include "study/sampling.hpp"
#include "study/spread.hpp"

namespace poise::study {

/// How a promise fares over all machines of a spread.
struct PromiseSpread {
  Promise promise;
  Kept nominal;  ///< of the job as stated
  Share broken;  ///< of the machines that came far enough to tell
  long unseen = 0;
  long without_number = 0;      ///< broken, and no margin says by how much: what was waited for never came
  std::vector<double> margins;  ///< sorted, of those that have one
  /// The room below which a share of the machines lies; none where these never came to what was waited for,
  /// or nothing was measured.
  std::optional<double> room_below(double share) const;
  std::optional<long> worst;  ///< number of the machine with the least room
  Kept worst_kept;
  Drivers drivers;
  std::vector<Pull> pulls;  ///< as long as the list of loose values; empty where too few machines tell
  /// What those that break it have in common: how far off, on the mean, the values are that lie further to
  /// one side than chance brings them, the furthest first.
  std::vector<std::pair<std::size_t, double>> typical;
  std::optional<long> nearest_broken;  ///< of the machines, by the sum of squared shares of tolerances
};

/// What a spread says.
struct SpreadAnswer {
  long wanted = 0;
  Share kept;  ///< of the machines run so far, those that keep every promise
  long broken = 0, not_proven = 0;
  std::vector<PromiseSpread> promises;  ///< in the order of the rows
  std::optional<long> worst;            ///< the machine with the least room of all ...
  std::size_t worst_promise = 0;        ///< ... for this promise
};

/// Sums the rows of a spread up; row 0 is the job as stated and no machine. Rows may be missing.
SpreadAnswer answer_of(const Spread& spread, std::span<const Promise> promises, std::span<const Row> rows,
                       long wanted);

}  // namespace poise::study
