// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <span>

#include "trace/trace.hpp"

namespace poise::rules {

/// A value at a moment, SI.
struct Peak {
  double value = 0.0;
  double time = 0.0;
};

/// One signal over a run, straight between rows that all courses of a run share; empty (false) where it was
/// not recorded or nothing was run. Views the trace, which must outlive it.
class Course {
 public:
  Course() = default;
  Course(std::span<const double> time, std::span<const double> value) : time_(time), value_(value) {}
  /// With the highest and lowest of the whole run where they are known better than from the rows.
  Course(std::span<const double> time, std::span<const double> value, Peak highest, Peak lowest)
      : time_(time), value_(value), known_(true), highest_(highest), lowest_(lowest) {}
  explicit operator bool() const { return !time_.empty(); }

  std::span<const double> time() const { return time_; }
  std::span<const double> value() const { return value_; }

  /// The value at a moment; beyond the ends, that of the end. 0 of an empty course.
  double at(double moment) const;
  /// Of the whole run, or of a stretch of it. {0, 0} of an empty course.
  Peak highest() const;
  Peak lowest() const;
  Peak highest(const StepSpan& span) const;
  Peak lowest(const StepSpan& span) const;
  /// The row with the greatest |value|, with its sign.
  Peak greatest() const;
  /// The first moment from `from` on at which it is above a value.
  std::optional<double> first_above(double threshold, double from = 0.0) const;
  /// How long it is above a value in all, s.
  double time_above(double threshold) const;
  /// The value that it is above for so long in all, s, within 1 %: its highest without shorter blows. Of a
  /// course that is never positive for so long, 0.
  double lasting(double seconds) const;
  /// Its integral over the time in which it is positive: of a flow, the volume that went one way.
  double positive_integral() const;
  /// How long its magnitude is beyond a value, either way, s.
  double time_beyond(double magnitude) const;
  /// The greatest magnitude that it is beyond for so long in all, if that is more than `least`; else 0. What
  /// stands for a moment only does not count.
  double held_beyond(double least, double seconds) const;

 private:
  Course within(const StepSpan& span) const;
  std::span<const double> time_, value_;
  bool known_ = false;
  Peak highest_, lowest_;
};

/// A moment at the start of a step that the step before does not share, s.
inline double just_after(const StepSpan& span) {
  constexpr double moment = 1e-3;
  return span.end - span.begin > moment ? span.begin + moment : span.end;
}

/// How long something holds at both ends of a row's interval, s; `holds` is asked for each row.
template <class Holds>
double time_while(const Course& course, Holds holds) {
  const std::span<const double> time = course.time();
  double sum = 0.0;
  bool before = !time.empty() && holds(std::size_t{0});
  for (std::size_t row = 1; row < time.size(); ++row) {
    const bool now = holds(row);
    if (before && now) sum += time[row] - time[row - 1];
    before = now;
  }
  return sum;
}

/// The greatest value of a course among the rows that `holds` picks; {0, 0} where it picks none.
template <class Holds>
Peak highest_while(const Course& course, Holds holds) {
  Peak most;
  for (std::size_t row = 0; row < course.time().size(); ++row) {
    if (holds(row) && course.value()[row] > most.value) most = {course.value()[row], course.time()[row]};
  }
  return most;
}

/// The least value of a course among the rows that `holds` picks; {0, 0} where it picks none.
template <class Holds>
Peak lowest_while(const Course& course, Holds holds) {
  std::optional<Peak> least;
  for (std::size_t row = 0; row < course.time().size(); ++row) {
    if (holds(row) && (!least || course.value()[row] < least->value))
      least = Peak{course.value()[row], course.time()[row]};
  }
  return least.value_or(Peak{});
}

/// The highest value above `from` that a course keeps for `lasts` seconds in all while something holds, and
/// when it first has it; {0, 0} where it keeps none.
template <class Holds>
Peak lasting_while(const Course& course, double lasts, double from, Holds holds) {
  const auto time_over = [&](double level) {
    return time_while(course, [&](std::size_t row) { return course.value()[row] > level && holds(row); });
  };
  if (time_over(from) < lasts) return {};
  double low = from, high = highest_while(course, holds).value;
  for (int i = 0; i < 24; ++i) {
    const double middle = 0.5 * (low + high);
    (time_over(middle) < lasts ? high : low) = middle;
  }
  for (std::size_t row = 0; row < course.time().size(); ++row) {
    if (course.value()[row] > low && holds(row)) return {low, course.time()[row]};
  }
  return {};
}

}  // namespace poise::rules
