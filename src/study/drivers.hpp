// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <Eigen/Dense>
#include <optional>
#include <vector>

namespace poise::study {

/// What one loose value does to a margin.
struct Driver {
  std::size_t loose = 0;  ///< place in the spread's list
  double share = 0.0;     ///< of the margin's variance that it makes alone
  double slope = 0.0;  ///< straight part: change of the margin from the middle of its range to the upper end
  bool straight = true;  ///< the straight part makes most of it: more of the value always does the same
};

/// Which loose values drive a margin.
struct Drivers {
  double mean = 0.0, variance = 0.0;
  std::vector<Driver> ranked;  ///< all of them, the greatest share first
  double together = 0.0;       ///< share that the fit does not explain by values alone
  bool enough = false;         ///< false: too few machines to tell
};

/// Finds them by least squares from machines that were run: the margin as a sum of polynomials of Legendre up
/// to the third order, one row of them for each value, whose variances add up since they are orthogonal
/// over ranges where every place is alike likely (B. Sudret, Reliability Engineering and System Safety
/// 93, 2008). Coefficients below three times what they would have by chance count
/// as none; of the others that is taken off. The order is lower where there
/// are few machines. The same machines serve every margin: what depends on them alone is worked out once.
class DriverFit {
 public:
  /// One row per machine, one column per loose value, each from −1 to 1 (`place_of`).
  explicit DriverFit(Eigen::MatrixXd places);

  /// Of a margin, one number for each machine, in the same order.
  Drivers drivers_of(const Eigen::VectorXd& margin) const;
  Eigen::Index machines() const { return places_.rows(); }

 private:
  Eigen::MatrixXd places_, terms_;
  int order_ = 0;
  std::optional<Eigen::LLT<Eigen::MatrixXd>> factored_;  ///< none: too few machines to tell
  Eigen::VectorXd uncertainty_;                          ///< diagonal of the inverse normal matrix
};

}  // namespace poise::study
