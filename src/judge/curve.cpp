// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/curve.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace poise {
namespace {

/// Where the room of a condition passes zero between two points on either side of it.
double crossing(Point a, Point b, const Condition& condition) {
  const double room_a = condition.room(a.value), room_b = condition.room(b.value);
  return a.time + (b.time - a.time) * room_a / (room_a - room_b);
}

}  // namespace

Curve::Curve(const Trace& trace, const Signal& signal) : time_(trace.time) {
  const int column = trace.column(signal.name);
  if (column < 0) throw std::logic_error("the signal " + signal.name + " is not in the trace");
  value_ = trace.values[column];
  if (time_.empty() || value_.size() != time_.size())
    throw std::logic_error("the column of " + signal.name + " is not as long as the time of the trace");
}

double Curve::between(std::size_t row, double time) const {
  const double share = (time - time_[row - 1]) / (time_[row] - time_[row - 1]);
  return value_[row - 1] + share * (value_[row] - value_[row - 1]);
}

double Curve::at(double time) const {
  const auto row = static_cast<std::size_t>(std::ranges::upper_bound(time_, time) - time_.begin());
  if (row == 0) return value_.front();
  if (row == time_.size() || time_[row - 1] == time) return value_[row - 1];
  return between(row, time);
}

double Curve::before(double time) const {
  const auto row = static_cast<std::size_t>(std::ranges::lower_bound(time_, time) - time_.begin());
  if (row == time_.size()) return value_.back();
  if (row == 0 || time_[row] == time) return value_[row];
  return between(row, time);
}

std::vector<Point> Curve::over(Window window) const {
  const bool from_start = window.begin <= time_.front(), to_end = window.end >= time_.back();
  std::vector<Point> points;
  if (!from_start) points.push_back({window.begin, at(window.begin)});
  const auto first = from_start ? time_.begin() : std::ranges::upper_bound(time_, window.begin);
  const auto last = to_end ? time_.end() : std::ranges::lower_bound(time_, window.end);
  for (auto row = first; row < last; ++row) points.push_back({*row, value_[row - time_.begin()]});
  if (!to_end && window.end > window.begin) points.push_back({window.end, before(window.end)});
  // A step that is over as it begins, at the first row.
  if (points.empty()) points.push_back({window.begin, at(window.begin)});
  return points;
}

bool Curve::has_values() const {
  return std::ranges::all_of(value_, [](double value) { return std::isfinite(value); });
}

std::optional<Point> first_holding(const Curve& curve, const std::vector<Window>& windows,
                                   const Condition& condition) {
  for (const Window& window : windows) {
    const auto points = curve.over(window);
    const auto hit = std::ranges::find_if(points, [&](Point p) { return condition.room(p.value) >= 0.0; });
    if (hit == points.end()) continue;
    if (hit == points.begin()) return *hit;
    return Point{crossing(*(hit - 1), *hit, condition), condition.threshold};
  }
  return std::nullopt;
}

std::optional<double> holding_since(const Curve& curve, double from, double time,
                                    const Condition& condition) {
  auto points = curve.over({from, time});
  points.push_back({time, curve.at(time)});  // a window ends before a jump, and what counts here is after it
  if (condition.room(points.back().value) < 0.0) return std::nullopt;
  for (std::size_t i = points.size() - 1; i > 0; --i) {
    if (condition.room(points[i - 1].value) < 0.0) return crossing(points[i - 1], points[i], condition);
  }
  return points.front().time;
}

}  // namespace poise
