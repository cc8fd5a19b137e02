// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <memory>
#include <vector>

namespace poise {

/// Darcy friction factor by Churchill (1977), valid at every Reynolds number. Re > 0; roughness relative to
/// the bore.
double churchill(double reynolds, double relative_roughness);

/// Flow through a round pipe with fittings, inverted: the Reynolds number for a given dimensionless pressure
/// drop S = Δp·2·D³/(L·ρ·ν²) = f(Re)·Re² + ΣK·(D/L)·Re². S(Re) is monotone, so each pipe has one curve; it is
/// worked out once on a grid even in log Re and read by cubic pieces with the law's slopes at their ends
/// (within 1e-6 of the law).
class PipeCurve {
 public:
  PipeCurve() = default;
  PipeCurve(double relative_roughness, double fittings_times_bore_over_length);

  struct Reynolds {
    double value;
    double slope;  ///< dRe/dS
  };
  Reynolds reynolds(double drop) const;  ///< drop S ≥ 0
  double drop(double reynolds) const;    ///< S of a Reynolds number
  struct Drop {
    double value;
    double slope;  ///< dS/dRe
  };
  Drop drop_with_slope(double reynolds) const;  ///< Re ≥ 0

 private:
  struct Table {
    std::vector<double> log_drop, log_reynolds, slope;  // slope d ln Re / d ln S
  };
  static std::shared_ptr<const Table> table_of(double roughness, double fittings);

  double roughness_ = 0.0, fittings_ = 0.0;
  std::shared_ptr<const Table> table_;  // lines of the same roughness and fittings share one
};

}  // namespace poise
