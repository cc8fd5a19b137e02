// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "units/units.hpp"

namespace poise::draw {

/// The straight line from SI to the numbers that a world's unit counts in, worked out once: charts turn
/// thousands of values.
class InUnit {
 public:
  InUnit(Quantity quantity, const units::World& world)
      : zero_(units::in_unit(0.0, quantity, world)),
        factor_(units::difference_in_unit(1.0, quantity, world)) {}
  double operator()(double value) const { return zero_ + factor_ * value; }
  double back(double number) const { return (number - zero_) / factor_; }

 private:
  double zero_, factor_;
};

}  // namespace poise::draw
