// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/motion.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <set>

namespace poise::diagnose {
namespace {

double least_way(bool turns) { return turns ? 2e-3 * std::numbers::pi : 1 * si::mm; }

bool turns(const Signal& position) { return position.quantity != Quantity::length; }

}  // namespace

std::vector<Body> bodies_of(const Job& job, const Circuit& circuit) {
  std::vector<Body> all;
  std::set<int> known;
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    if (job.plan.parts[p].kind->about.role != Role::actuator) continue;
    for (Signal& signal : signals_of(job.plan, p)) {
      if (signal.what != Signal::What::position) continue;
      if (known.insert(circuit.parts[p].body[signal.index]).second) all.push_back({p, std::move(signal)});
    }
  }
  return all;
}

std::vector<Motion> motions_of(const Job& job, const Trace& trace) {
  std::vector<Motion> all;
  for (std::size_t step = 0; step < trace.steps.size(); ++step) {
    for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
      if (job.plan.parts[p].kind->about.role != Role::actuator) continue;
      for (const Signal& signal : signals_of(job.plan, p)) {
        if (signal.what != Signal::What::position) continue;
        const int column = trace.column(signal.name);
        const double from = value_at(trace, column, trace.steps[step].begin);
        const double to = value_at(trace, column, trace.steps[step].end, true);
        if (!(std::abs(to - from) >= least_way(turns(signal)))) continue;
        all.push_back({step, p, signal, signal.name.substr(0, signal.name.rfind('.')), from, to});
      }
    }
  }
  return all;
}

double value_at(const Trace& trace, int column, double time, bool before) {
  const std::vector<double>& times = trace.time;
  if (times.empty() || column < 0) return std::numeric_limits<double>::quiet_NaN();
  const auto& values = trace.values[column];
  const auto after = before ? std::ranges::lower_bound(times, time) : std::ranges::upper_bound(times, time);
  const auto row = static_cast<std::size_t>(after - times.begin());
  if (row == 0) return values.front();
  if (row == times.size()) return values.back();
  const double span = times[row] - times[row - 1];
  if (span <= 0.0) return values[row];
  return values[row - 1] + (values[row] - values[row - 1]) * (time - times[row - 1]) / span;
}

std::optional<double> when_passed(const Trace& trace, const StepSpan& span, int column, double goal,
                                  bool upwards) {
  if (column < 0) return std::nullopt;
  const auto past = [&](double value) { return upwards ? value >= goal : value <= goal; };
  if (past(value_at(trace, column, span.begin))) return span.begin;
  const auto first = std::ranges::upper_bound(trace.time, span.begin);
  for (auto row = static_cast<std::size_t>(first - trace.time.begin()); row < trace.time.size(); ++row) {
    if (trace.time[row] > span.end) return std::nullopt;
    const double value = trace.values[column][row];
    if (!past(value)) continue;
    if (row == 0) return trace.time[row];
    const double last = trace.values[column][row - 1], step = trace.time[row] - trace.time[row - 1];
    const double back = value == last ? 0.0 : (value - goal) / (value - last) * step;
    return std::clamp(trace.time[row] - back, span.begin, span.end);
  }
  return std::nullopt;
}

}  // namespace poise::diagnose
