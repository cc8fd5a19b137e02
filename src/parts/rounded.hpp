// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/dual.hpp"

namespace poise {

/// max(x, 0) with its corner rounded by a parabola over ±`rounding`: exactly 0 below, exactly x above.
/// rounded_positive(x) − rounded_positive(−x) is x itself.
template <class T>
T rounded_positive(const T& x, double rounding) {
  if (x <= -rounding) return T(0.0);
  if (x >= rounding) return x;
  return (x + rounding) * (x + rounding) * (0.25 / rounding);
}

}  // namespace poise
