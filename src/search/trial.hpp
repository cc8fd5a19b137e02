// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "judge/verdict.hpp"
#include "search/open_value.hpp"

namespace poise::search {

/// What came of a job with values tried in it.
struct Trial {
  Point at;
  bool runs = false;  ///< false: the values do not go together, or the run could not be followed
  /// Room of each finding as a share of what was promised: requirements in the job's order, then those that
  /// every job has. What is broken is negative, -ln(1 + what it misses as a share), so that what is
  /// far off counts without hiding the rest, and -8 where there is no number; what holds without a number
  /// is 1.
  std::vector<double> shares;
  std::vector<std::size_t> finding;  ///< place of each in the verdict
  double missing = 0.0;              ///< sum of what the broken ones miss
  double rules = 0.0;                ///< rules of the trade that are not kept, weighed by harm
  Verdict verdict;                   ///< of the nominal job

  bool holds() const { return runs && missing == 0.0; }
  /// The smallest share; of a trial that could not be run, -10.
  double smallest() const;
};

inline constexpr double unseen_share = -8.0;

/// Whether a promise holds as far as it was seen: a run that ends early, in a step that waits in vain, breaks
/// the promise that every step comes to its end, and no other with it.
bool holds_as_far_as_seen(const Trial& trial, std::size_t place);

/// A share as a verdict has it: what is missed is no longer a logarithm.
double plain_share(double share);

/// The finding behind a share, by its place.
const Finding& finding_of(const Trial& trial, std::size_t place);

/// A verdict as the search looks at it, of a job with these requirements. A moment that never comes misses
/// more than one that comes late by no more than its time, however near it got.
Trial trial_of(Point at, Verdict verdict, const std::vector<Requirement>& requirements);

/// Takes over what is worse in another trial of the same values (with other tolerances).
void worsen(Trial& trial, const Trial& other);

/// Whether a is the better trial: fewer promises missing, then fewer rules not kept, then the larger smallest
/// share, then the next. Shares above `enough` count as `enough`; what lies in the same step of `tolerance`
/// is alike.
bool better(const Trial& a, const Trial& b, double enough, double tolerance = 1e-4);

/// -1 where a is better, 1 where b is, 0 where they are alike.
int compared(const Trial& a, const Trial& b, double enough, double tolerance = 1e-4);

}  // namespace poise::search
