// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/pipe_flow.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <mutex>
#include <numbers>
#include <utility>

namespace poise {
namespace {

// Below this Reynolds number the flow is laminar to the twelfth digit and S = 64·Re + fittings·Re² has a
// closed form.
constexpr double laminar_to = 1000.0;
constexpr double grid_to = 1e8;
// The jump of the friction factor between Re = 2000 and 4000 needs about 200 points to a decade; what comes
// after it is nearly a straight line in logarithms.
constexpr double turbulent_from = 1e4;
constexpr double fine = std::numbers::ln10 / 200, coarse = std::numbers::ln10 / 50;

double to_the_4th(double x) { return x * x * x * x; }

/// Churchill's friction factor and its slope d ln f/d ln Re.
struct Friction {
  double factor, slope;
};
Friction friction(double reynolds, double relative_roughness) {
  const double smooth = std::pow(7.0 / reynolds, 0.9);
  const double ratio = smooth + 0.27 * relative_roughness;
  const double rough = -2.457 * std::log(ratio);
  const double a = to_the_4th(to_the_4th(rough)), b = to_the_4th(to_the_4th(37530.0 / reynolds));
  const double laminar = to_the_4th(8.0 / reynolds) * to_the_4th(8.0 / reynolds) * to_the_4th(8.0 / reynolds);
  const double turbulent = 1.0 / ((a + b) * std::sqrt(a + b));
  // Slopes along ln Re: of a by −2.457·ln, of b and of the laminar term by their powers.
  const double a_slope = 16.0 * a * 2.457 * 0.9 * smooth / (ratio * rough);
  const double sum_slope = -12.0 * laminar - 1.5 * turbulent * (a_slope - 16.0 * b) / (a + b);
  const double sum = laminar + turbulent;
  return {8.0 * std::pow(sum, 1.0 / 12.0), sum_slope / (12.0 * sum)};
}

}  // namespace

double churchill(double reynolds, double relative_roughness) {
  return friction(reynolds, relative_roughness).factor;
}

double PipeCurve::drop(double reynolds) const {
  return (churchill(reynolds, roughness_) + fittings_) * reynolds * reynolds;
}

PipeCurve::Drop PipeCurve::drop_with_slope(double reynolds) const {
  if (reynolds <= laminar_to) {
    return {(64.0 + fittings_ * reynolds) * reynolds, 64.0 + 2.0 * fittings_ * reynolds};
  }
  const Friction f = friction(reynolds, roughness_);
  return {(f.factor + fittings_) * reynolds * reynolds,
          (2.0 * (f.factor + fittings_) + f.slope * f.factor) * reynolds};
}

std::shared_ptr<const PipeCurve::Table> PipeCurve::table_of(double roughness, double fittings) {
  static std::mutex one_at_a_time;
  static std::map<std::pair<double, double>, std::weak_ptr<const Table>> known;
  const std::scoped_lock lock(one_at_a_time);
  auto& kept = known[{roughness, fittings}];
  if (auto table = kept.lock()) return table;
  auto table = std::make_shared<Table>();
  for (double log_re = std::log(laminar_to); log_re < std::log(grid_to);
       log_re += log_re < std::log(turbulent_from) ? fine : coarse) {
    const double re = std::exp(log_re);
    const Friction f = friction(re, roughness);
    table->log_reynolds.push_back(log_re);
    table->log_drop.push_back(std::log((f.factor + fittings) * re * re));
    table->slope.push_back(1.0 / (2.0 + f.slope * f.factor / (f.factor + fittings)));
  }
  kept = table;
  return table;
}

PipeCurve::PipeCurve(double relative_roughness, double fittings_times_bore_over_length)
    : roughness_(relative_roughness),
      fittings_(fittings_times_bore_over_length),
      table_(table_of(relative_roughness, fittings_times_bore_over_length)) {}

PipeCurve::Reynolds PipeCurve::reynolds(double drop_value) const {
  const double laminar_end = 64.0 * laminar_to + fittings_ * laminar_to * laminar_to;
  if (drop_value <= laminar_end) {
    const double root = std::sqrt(64.0 * 64.0 + 4.0 * fittings_ * drop_value);
    return {2.0 * drop_value / (64.0 + root), 1.0 / root};
  }
  const double s = std::log(drop_value);
  if (s >= table_->log_drop.back()) {  // no real flow gets there; a solver's try may
    const double re =
        std::exp(table_->log_reynolds.back() + table_->slope.back() * (s - table_->log_drop.back()));
    return {re, table_->slope.back() * re / drop_value};
  }
  const auto above = std::upper_bound(table_->log_drop.begin() + 1, table_->log_drop.end() - 1, s);
  const auto i = static_cast<std::size_t>(above - table_->log_drop.begin()) - 1;
  const double h = table_->log_drop[i + 1] - table_->log_drop[i];
  const double u = (s - table_->log_drop[i]) / h;
  const double rise = table_->log_reynolds[i + 1] - table_->log_reynolds[i];
  const double c2 = 3.0 * rise - h * (2.0 * table_->slope[i] + table_->slope[i + 1]);
  const double c3 = h * (table_->slope[i] + table_->slope[i + 1]) - 2.0 * rise;
  const double log_re = table_->log_reynolds[i] + u * (h * table_->slope[i] + u * (c2 + u * c3));
  const double log_slope = table_->slope[i] + u * (2.0 * c2 + 3.0 * u * c3) / h;
  const double re = std::exp(log_re);
  return {re, log_slope * re / drop_value};
}

}  // namespace poise
