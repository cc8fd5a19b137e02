// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <vector>

namespace poise::search {

/// Shares near a point as straight lines: share i at a step d is base + slope · d.
struct Line {
  double base = 0.0;
  std::vector<double> slope;
  std::optional<double> floor{};  ///< it must not fall below this, and counts no further
};

/// A smooth minimum of numbers, below the smallest by at most ln(count)/sharpness.
double smooth_minimum(const std::vector<double>& numbers, double sharpness);

/// What a step is to lift.
enum class Lift {
  smallest,  ///< the smallest share alone
  all,  ///< several at once, the smaller the more: where promises are broken, one is not mended at any price
};

/// The step within `low` … `high` (component by component, 0 between them) that makes the smooth minimum of
/// the lines without a floor largest while the others stay above theirs.
std::vector<double> best_step(const std::vector<Line>& lines, const std::vector<double>& low,
                              const std::vector<double>& high, Lift lift = Lift::smallest);

}  // namespace poise::search
