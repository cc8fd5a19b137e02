// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/drivers.hpp"

#include <algorithm>
#include <cmath>

namespace poise::study {
namespace {

constexpr int highest_order = 3;
constexpr Eigen::Index machines_per_term = 4;
constexpr double beyond_chance = 9.0;  // squared: three times what a coefficient has by chance

/// Legendre's polynomials, each with variance 1 over −1 … 1.
double term(int order, double x) {
  switch (order) {
    case 1:
      return std::sqrt(3.0) * x;
    case 2:
      return std::sqrt(5.0) * (3.0 * x * x - 1.0) / 2.0;
    default:
      return std::sqrt(7.0) * (5.0 * x * x * x - 3.0 * x) / 2.0;
  }
}

int order_for(Eigen::Index machines, Eigen::Index loose) {
  for (int order = highest_order; order >= 1; --order) {
    if (machines >= machines_per_term * (1 + order * loose)) return order;
  }
  return machines >= 2 * (1 + loose) ? 1 : 0;
}

}  // namespace

DriverFit::DriverFit(Eigen::MatrixXd places) : places_(std::move(places)) {
  order_ = order_for(places_.rows(), places_.cols());
  if (order_ == 0 || places_.cols() == 0) return;
  terms_.resize(places_.rows(), 1 + order_ * places_.cols());
  terms_.col(0).setOnes();
  for (Eigen::Index i = 0; i < places_.cols(); ++i) {
    for (int k = 1; k <= order_; ++k)
      terms_.col(1 + i * order_ + k - 1) = places_.col(i).unaryExpr([k](double x) { return term(k, x); });
  }
  Eigen::MatrixXd normal = Eigen::MatrixXd::Zero(terms_.cols(), terms_.cols());
  normal.selfadjointView<Eigen::Lower>().rankUpdate(terms_.transpose());
  factored_.emplace(normal.selfadjointView<Eigen::Lower>());
  uncertainty_ = factored_->solve(Eigen::MatrixXd::Identity(normal.rows(), normal.cols())).diagonal();
}

Drivers DriverFit::drivers_of(const Eigen::VectorXd& margin) const {
  Drivers found;
  const auto machines = static_cast<double>(margin.size());
  if (margin.size() < 2) return found;
  found.mean = margin.mean();
  found.variance = (margin.array() - found.mean).square().sum() / (machines - 1.0);
  const double size = std::max(std::abs(found.mean), margin.cwiseAbs().maxCoeff());
  constexpr double round_off = 1e-9;  // of the margin itself: below it nothing varies
  if (!factored_ || found.variance <= std::pow(round_off * size, 2)) return found;
  found.enough = true;
  const Eigen::VectorXd centred = margin.array() - found.mean;
  const Eigen::VectorXd coefficients = factored_->solve(terms_.transpose() * centred);
  const double left =
      (centred - terms_ * coefficients).squaredNorm() / (machines - static_cast<double>(terms_.cols()));
  found.together = std::clamp(left / found.variance, 0.0, 1.0);
  double alone = 0.0;
  for (Eigen::Index i = 0; i < places_.cols(); ++i) {
    Driver driver{.loose = static_cast<std::size_t>(i)};
    double straight = 0.0, all = 0.0;
    for (int k = 1; k <= order_; ++k) {
      const Eigen::Index at = 1 + i * order_ + k - 1;
      const double square = std::pow(coefficients(at), 2), by_chance = left * uncertainty_(at);
      const double part = square > beyond_chance * by_chance ? square - by_chance : 0.0;
      all += part;
      if (k == 1) straight = part;
    }
    driver.share = all;
    driver.slope = std::sqrt(3.0) * coefficients(1 + i * order_);
    driver.straight = straight >= all / 2.0;
    alone += driver.share;
    found.ranked.push_back(driver);
  }
  // In a sample the parts do not quite add up to what the fit explains, since its columns are not quite
  // orthogonal there: they are told as shares of it.
  for (Driver& driver : found.ranked) driver.share *= alone > 0.0 ? (1.0 - found.together) / alone : 0.0;
  std::ranges::stable_sort(found.ranked, std::ranges::greater{}, &Driver::share);
  return found;
}

}  // namespace poise::study
