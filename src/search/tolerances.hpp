// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "search/bench.hpp"

namespace poise::search {

/// A value of the machine that may be off, by a share of itself to either side.
struct Tolerance {
  int part = 0, parameter = 0;  ///< part −1: the oil's viscosity
  double share = 0.0;
};

/// Every given value of the parts that has a tolerance in its table, and the oil's viscosity: ± 10 % within a
/// grade (ISO 3448).
std::vector<Tolerance> tolerances_of(const Job& job);

/// For each promise the corner of all tolerances at which it has least room, as straight lines foretell it
/// from one run per tolerance about a point: each tolerance at the end that takes room away, left out where
/// it matters nothing. The same corner stands once.
std::vector<Corner> bad_corners(Bench& bench, const Point& about, const std::vector<Tolerance>& tolerances);

}  // namespace poise::search
