// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "draw/ticks.hpp"
#include "trace/trace.hpp"

namespace poise::draw {

/// A straight axis of a chart: from the least to the greatest number of the axis, in the unit that people
/// read, and where both stand on the paper, mm.
struct ValueAxis {
  double low = 0.0, high = 1.0;
  double from = 0.0, to = 1.0;
  Ticks ticks;

  double at(double number) const { return from + (number - low) / (high - low) * (to - from); }
};

/// The axis that holds both numbers and ends on ticks, no more than `most` of them.
ValueAxis value_axis(double low, double high, double from, double to, int most);

/// The time of a run on paper, step by step: to scale, but no step narrower than its name needs. Those
/// that are drawn wider than to scale say so.
class TimeAxis {
 public:
  struct Piece {
    std::string name;
    double begin = 0.0, end = 0.0;   ///< s
    double left = 0.0, right = 0.0;  ///< mm
    double wider = 1.0;              ///< times wider than to scale; 1 for those to scale
  };

  /// `least` has a width for each step, mm; steps share the width evenly where it cannot hold them all.
  TimeAxis(std::span<const StepSpan> steps, double left, double right, std::span<const double> least);

  double at(double time) const;
  double left() const { return pieces_.front().left; }
  double right() const { return pieces_.back().right; }
  double begin() const { return pieces_.front().begin; }
  double end() const { return pieces_.back().end; }
  const std::vector<Piece>& pieces() const { return pieces_; }
  bool to_scale() const;
  /// Millimetres a second where it is to scale.
  double scale() const { return scale_; }

 private:
  std::vector<Piece> pieces_;
  double scale_ = 1.0;
};

}  // namespace poise::draw
