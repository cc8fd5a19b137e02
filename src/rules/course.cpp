// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/course.hpp"

#include <algorithm>
#include <cmath>

namespace poise::rules {

double Course::at(double moment) const {
  if (time_.empty()) return 0.0;
  const auto row = static_cast<std::size_t>(std::ranges::upper_bound(time_, moment) - time_.begin());
  if (row == 0) return value_.front();
  if (row == time_.size() || time_[row - 1] == moment) return value_[row - 1];
  const double share = (moment - time_[row - 1]) / (time_[row] - time_[row - 1]);
  return value_[row - 1] + share * (value_[row] - value_[row - 1]);
}

Peak Course::highest() const {
  if (known_) return highest_;
  if (time_.empty()) return {};
  const auto row = std::ranges::max_element(value_) - value_.begin();
  return {value_[row], time_[row]};
}

Peak Course::lowest() const {
  if (known_) return lowest_;
  if (time_.empty()) return {};
  const auto row = std::ranges::min_element(value_) - value_.begin();
  return {value_[row], time_[row]};
}

Peak Course::greatest() const {
  const Peak high = highest(), low = lowest();
  return high.value >= -low.value ? high : low;
}

Course Course::within(const StepSpan& span) const {
  const auto first = std::ranges::lower_bound(time_, span.begin) - time_.begin();
  const auto last = std::ranges::upper_bound(time_, span.end) - time_.begin();
  if (last <= first) return {};
  return {time_.subspan(first, last - first), value_.subspan(first, last - first)};
}

Peak Course::highest(const StepSpan& span) const { return within(span).highest(); }
Peak Course::lowest(const StepSpan& span) const { return within(span).lowest(); }

std::optional<double> Course::first_above(double threshold, double from) const {
  const auto first = static_cast<std::size_t>(std::ranges::lower_bound(time_, from) - time_.begin());
  for (std::size_t row = first; row < time_.size(); ++row) {
    if (value_[row] > threshold) return time_[row];
  }
  return std::nullopt;
}

namespace {

/// How much of h lies above 0 on a straight line from a to b.
double time_above_zero(double a, double b, double h) {
  if (a > 0.0 && b > 0.0) return h;
  return a > 0.0 || b > 0.0 ? h * std::max(a, b) / (std::abs(a) + std::abs(b)) : 0.0;
}

}  // namespace

double Course::time_above(double threshold) const {
  double sum = 0.0;
  for (std::size_t row = 1; row < time_.size(); ++row)
    sum += time_above_zero(value_[row - 1] - threshold, value_[row] - threshold, time_[row] - time_[row - 1]);
  return sum;
}

double Course::lasting(double seconds) const {
  double low = 0.0, high = std::max(highest().value, 0.0);
  if (time_above(0.99 * high) > seconds) return high;
  for (const double enough = 0.01 * high; high - low > enough;) {
    const double middle = 0.5 * (low + high);
    (time_above(middle) > seconds ? low : high) = middle;
  }
  return low;
}

double Course::positive_integral() const {
  double sum = 0.0;
  for (std::size_t row = 1; row < time_.size(); ++row) {
    const double a = std::max(value_[row - 1], 0.0), b = std::max(value_[row], 0.0);
    sum += 0.5 * (a + b) * (time_[row] - time_[row - 1]);
  }
  return sum;
}

double Course::time_beyond(double magnitude) const {
  double sum = 0.0;
  for (std::size_t row = 1; row < time_.size(); ++row) {
    const double a = value_[row - 1], b = value_[row], h = time_[row] - time_[row - 1];
    sum += time_above_zero(a - magnitude, b - magnitude, h);
    if (a < 0.0 || b < 0.0) sum += time_above_zero(-a - magnitude, -b - magnitude, h);
  }
  return sum;
}

double Course::held_beyond(double least, double seconds) const {
  // Most courses never get there; that is seen quickly.
  if (std::ranges::none_of(value_, [&](double v) { return std::abs(v) > least; })) return 0.0;
  if (time_beyond(least) < seconds) return 0.0;
  double low = least, high = std::abs(greatest().value);
  for (int halving = 0; halving < 14; ++halving) {
    const double middle = 0.5 * (low + high);
    (time_beyond(middle) < seconds ? high : low) = middle;
  }
  return low;
}

}  // namespace poise::rules
