// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <vector>

#include "parts/dual.hpp"
#include "parts/table.hpp"

namespace poise {

/// A curve of a datasheet through all of its points, with no bumps between them that the points do not show
/// and no corners: cubic pieces whose slopes at the points are weighted harmonic means of those beside them
/// (F. N. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300). x must rise.
class MonotoneCurve {
 public:
  enum class Beyond { straight_on, level };  ///< how the curve goes on beyond its ends
  MonotoneCurve() = default;
  explicit MonotoneCurve(std::span<const CurvePoint> points, Beyond beyond = Beyond::straight_on);

  bool empty() const { return points_.empty(); }
  struct Value {
    double value, slope;
  };
  Value look(double x) const;
  template <class T>
  T at(const T& x) const {
    const Value here = look(value_of(x));
    return with_slope(x, here.value, here.slope);
  }
  /// The points beside the curve: equal, since it runs through them.
  CurveFit fit(std::string_view parameter) const;

 private:
  Value beyond(std::size_t end, double x) const;

  std::vector<CurvePoint> points_;
  std::vector<double> slope_;
  Beyond beyond_ = Beyond::straight_on;
};

}  // namespace poise
