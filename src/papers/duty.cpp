// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/duty.hpp"

#include <algorithm>
#include <cmath>

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
    const auto [low, high] = std::ranges::minmax(trace.values[column]);
    (*list)[signal.index] = {low, high};
  }
  return all;
}

}  // namespace poise::papers
