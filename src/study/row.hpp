// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "judge/outcome.hpp"
#include "judge/verdict.hpp"

namespace poise::study {

/// A promise that a study keeps book of.
struct Promise {
  std::string name;
  std::string promised;                ///< in words, in the job's units
  Quantity quantity = Quantity::none;  ///< of its margin
};

/// What became of one promise in one run.
struct Kept {
  Mark mark = Mark::unseen;
  /// SI, in the promise's quantity, negative where broken. None where there is no number, or one of another
  /// quantity: a moment that never came is measured by how near it got.
  std::optional<double> margin{};
  std::optional<double> share{};  ///< the margin as a share of what was promised
};

/// What a study remembers of one run.
struct Row {
  long number = 0;
  Outcome outcome = Outcome::not_proven;
  std::vector<Kept> promises;  ///< as long as the list of promises, in its order
  std::string detail;          ///< what else the study wants to know of it; JSON or empty
};

/// The promises of a job: its requirements in their order, then those that every job has. `nominal` is any
/// verdict of it.
std::vector<Promise> promises_of(const Job& job, const Verdict& nominal);

/// A verdict as a study remembers it.
Row row_of(long number, const std::vector<Promise>& promises, const Job& job, const Verdict& verdict);

}  // namespace poise::study
