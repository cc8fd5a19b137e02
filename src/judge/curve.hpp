// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "circuit/schedule.hpp"
#include "trace/trace.hpp"

namespace poise {

/// A stretch of time, both ends belonging to it, s.
struct Window {
  double begin = 0.0, end = 0.0;
};

/// A value at a moment, SI.
struct Point {
  double time = 0.0, value = 0.0;
};

/// One signal of a trace, straight between rows. Two rows of one time are a jump: the first ends what was
/// before, the second begins what comes after. Views the trace, which must outlive it.
class Curve {
 public:
  /// Throws std::logic_error if the trace has no such signal or no row.
  Curve(const Trace& trace, const Signal& signal);

  /// The value at a moment, after a jump if there is one there; beyond the ends, the value of the end.
  double at(double time) const;
  /// The corners of the curve within a window, its two ends included.
  std::vector<Point> over(Window window) const;
  /// Whether every row has a number.
  bool has_values() const;

 private:
  double before(double time) const;
  double between(std::size_t row, double time) const;

  std::span<const double> time_, value_;
};

/// The earliest moment within the windows (in order of time) at which a condition holds.
std::optional<Point> first_holding(const Curve& curve, const std::vector<Window>& windows,
                                   const Condition& condition);

/// The moment since when a condition has held without a break up to `time`, not earlier than `from`; none if
/// it does not hold at `time`.
std::optional<double> holding_since(const Curve& curve, double from, double time, const Condition& condition);

}  // namespace poise
