// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "study/fault_run.hpp"

namespace poise::study {

/// What became of one size of a fault.
struct SizedOutcome {
  double t = 0.0;
  Outcome outcome = Outcome::not_proven;
};

/// Runs of one fault stand at its place in the list times this, and on.
inline constexpr long runs_per_fault = 8;

/// The size to run next, from those that were: slight, grave, and where the one holds and the other breaks,
/// four halvings between them. None where the fault is done. A fault of one size has only its grave one.
std::optional<double> next_size(const FaultPlace& place, std::span<const SizedOutcome> so_far);

/// A fault with all that was found of it, in the order of its runs.
struct FaultResult {
  FaultPlace place;
  std::vector<FaultAnswer> answers;

  std::vector<SizedOutcome> outcomes() const;
  bool done() const { return !next_size(place, outcomes()); }
  /// The smallest size that breaks something, or null.
  const FaultAnswer* breaks_from() const;
  /// That size in words, and whether smaller ones were tried; empty where nothing breaks or there is one
  /// size.
  std::string breaks_from_in_words() const;
  /// The one that stands for it: the smallest that breaks, else the gravest; null where none was run.
  const FaultAnswer* telling() const;
  /// The worst of its sizes.
  Severity severity() const;
};

/// The results of a job's faults from the rows of a study, by their numbers. Rows that do not read are left
/// out.
std::vector<FaultResult> results_of(const std::vector<FaultPlace>& places, std::span<const Row> rows);

/// Two faults at once, by their places in the list, with their sizes.
struct FaultPair {
  std::size_t a = 0, b = 0;
  double t_a = 1.0, t_b = 1.0;
};

/// Pairs of faults that each break nothing alone, at the greatest size that holds. Left out are two faults of
/// one part, two of one property of the oil, and two that both begin in the middle of a step.
std::vector<FaultPair> pairs_of(std::span<const FaultResult> results);
/// "A, with B"
std::string name_of(const FaultPair& pair, const std::vector<FaultPlace>& places);
std::optional<Job> with_pair(const Job& job, const std::vector<FaultPlace>& places, const FaultPair& pair);
FaultCase case_of(const Nominal& nominal, const std::vector<FaultPlace>& places, const FaultPair& pair,
                  const RunProgress& progress = {});

/// A pair with what was found of it; its rows are numbered by the place in `pairs_of`.
struct PairResult {
  std::string name;
  FaultPair pair;
  std::optional<FaultAnswer> answer;
};
std::vector<PairResult> results_of(std::span<const FaultPair> pairs, const std::vector<FaultPlace>& places,
                                   std::span<const Row> rows);

}  // namespace poise::study
