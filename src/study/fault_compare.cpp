// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/fault_compare.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace poise::study {
namespace {

double value_at(const Trace& trace, int column, double time) {
  const std::vector<double>& value = trace.values[column];
  const auto after = std::ranges::upper_bound(trace.time, time);
  const auto row = static_cast<std::size_t>(after - trace.time.begin());
  if (row == 0) return value.front();
  if (row == trace.time.size()) return value.back();
  const double span = trace.time[row] - trace.time[row - 1];
  if (span <= 0.0) return value[row];
  return value[row - 1] + (value[row] - value[row - 1]) * (time - trace.time[row - 1]) / span;
}

}  // namespace

std::string SameMoment::words(const Trace& trace) const {
  return fmt::format("{} of \"{}\"", end ? "at the end" : "in the middle", trace.steps[step].name);
}

Compared::Compared(const Nominal& sound_one, const FaultyRun& faulty_one)
    : nominal(sound_one), run(faulty_one) {
  if (!has_rows() || nominal.trace.time.empty()) return;
  steps_ = std::min(nominal.trace.steps.size(), run.trace.steps.size());
  for (std::size_t s = 0; s < steps_; ++s) {
    const StepSpan &a = nominal.trace.steps[s], &b = run.trace.steps[s];
    moments_.push_back({s, false, 0.5 * (a.begin + a.end), 0.5 * (b.begin + b.end)});
    moments_.push_back({s, true, a.end, b.end});
  }
}

int Compared::column(Signal::What what, int part, int index) const {
  const auto at = std::ranges::find_if(nominal.signals, [&](const Signal& signal) {
    return signal.what == what && signal.part == part && signal.index == index;
  });
  return at == nominal.signals.end() ? -1 : static_cast<int>(at - nominal.signals.begin());
}

double Compared::sound(int column, double time) const { return value_at(nominal.trace, column, time); }
double Compared::faulty(int column, double time) const { return value_at(run.trace, column, time); }

std::string Compared::show(double value, Quantity quantity) const {
  const double nothing = quantity == Quantity::pressure ? 0.01 * si::bar
                         : quantity == Quantity::length ? 1e-6
                                                        : 0.0;
  return units::show(std::abs(value) < nothing ? 0.0 : value, quantity, nominal.job.world);
}

Stretch rows_within(const Trace& trace, int column, double begin, double end) {
  const auto first = std::ranges::lower_bound(trace.time, begin),
             last = std::ranges::upper_bound(trace.time, end);
  const auto from = static_cast<std::size_t>(first - trace.time.begin());
  const auto count = static_cast<std::size_t>(std::max<std::ptrdiff_t>(last - first, 0));
  return {std::span(trace.time).subspan(from, count), std::span(trace.values[column]).subspan(from, count)};
}

}  // namespace poise::study
