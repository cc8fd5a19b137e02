// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/duty.hpp"

#include <algorithm>
#include <functional>
#include <span>
#include <utility>

namespace poise::papers {
namespace {

std::vector<Reach>* list_of(Duty& duty, Signal::What what) {
  switch (what) {
    case Signal::What::pressure:
      return &duty.pressure;
    case Signal::What::flow:
      return &duty.flow;
    case Signal::What::position:
      return &duty.position;
    case Signal::What::speed:
      return &duty.speed;
    case Signal::What::output:
      return &duty.output;
    case Signal::What::state:
    case Signal::What::mode:
      break;
  }
  return nullptr;
}

constexpr double lasts = 0.1;  // s; common practice, as where `poise find` takes models by their rated flow

constexpr double counts = 0.05;  // of the blow before it, for what lasts to be more than what seeps after

/// The greatest value, times `sign`, that a signal is above for so long in all; 0 where it never is, or where
/// nothing but seepage lasts.
double lasting(std::span<const double> time, std::span<const double> value, double sign) {
  std::vector<std::pair<double, double>> stretches;  // least value and length of each
  for (std::size_t row = 1; row < time.size(); ++row) {
    const double least = std::min(sign * value[row - 1], sign * value[row]);
    if (least > 0.0) stretches.emplace_back(least, time[row] - time[row - 1]);
  }
  std::ranges::sort(stretches, std::greater{});
  double sum = 0.0;
  for (const auto& [least, length] : stretches) {
    sum += length;
    if (sum >= lasts) return least >= counts * stretches.front().first ? least : 0.0;
  }
  return 0.0;
}

Reach reach_of(const Signal& signal, std::span<const double> time, std::span<const double> value) {
  if (signal.what == Signal::What::flow || signal.what == Signal::What::speed)
    return {-lasting(time, value, -1.0), lasting(time, value, 1.0)};
  const auto [low, high] = std::ranges::minmax(value);
  return {low, high};
}

}  // namespace

std::vector<Duty> duties_of(const Plan& plan, const Trace& trace) {
  std::vector<Duty> all(plan.parts.size());
  if (trace.time.empty()) return all;
  for (Duty& duty : all) duty.duration = trace.time.back() - trace.time.front();
  for (std::size_t column = 0; column < trace.signals.size(); ++column) {
    const Signal& signal = trace.signals[column];
    std::vector<Reach>* list = list_of(all[signal.part], signal.what);
    if (!list) continue;
    if (list->size() <= static_cast<std::size_t>(signal.index)) list->resize(signal.index + 1);
    (*list)[signal.index] = reach_of(signal, trace.time, trace.values[column]);
  }
  return all;
}

}  // namespace poise::papers
