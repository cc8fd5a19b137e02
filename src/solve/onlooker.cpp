// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "solve/onlooker.hpp"

namespace poise::solve {
namespace {

constexpr double glances_in_a_run = 400.0;
constexpr int steps_between = 16;

}  // namespace

Onlooker::Onlooker(Equations& equations, Trace& trace, double planned)
    : equations_(equations),
      glances_(trace.glances),
      interval_(planned / glances_in_a_run),
      values_(trace.glances.signals.size()) {
  glances_.values.resize(values_.size());
  glances_.highest.resize(values_.size());
  glances_.lowest.resize(values_.size());
  for (std::size_t i = 0; i < values_.size(); ++i) {
    const Signal& signal = glances_.signals[i];
    if (of_part_.empty() || glances_.signals[of_part_.back().first].part != signal.part)
      of_part_.emplace_back(i, i);
    of_part_.back().second = i + 1;
    if (signal.what == Signal::What::pressure)
      nodes_.emplace_back(i, equations.circuit().node_of(signal.part, signal.index));
  }
}

void Onlooker::glance(double time) {
  const std::span<const Signal> signals = glances_.signals;
  for (const auto& [first, end] : of_part_)
    equations_.signals(signals.subspan(first, end - first), std::span(values_).subspan(first, end - first));
  glances_.time.push_back(time);
  for (std::size_t i = 0; i < values_.size(); ++i) glances_.values[i].push_back(values_[i]);
  since_ = 0;
}

void Onlooker::note_extremes(double time) {
  for (const auto& [signal, node] : nodes_) {
    const double pressure = equations_.pressure(node);
    auto &highest = glances_.highest[signal], &lowest = glances_.lowest[signal];
    const bool first = glances_.time.empty();
    if (first || pressure > highest.value) highest = {time, pressure};
    if (first || pressure < lowest.value) lowest = {time, pressure};
  }
}

void Onlooker::look(double time, const double* y) {
  if (values_.empty()) return;
  equations_.observe(time, y);
  note_extremes(time);
  glance(time);
}

void Onlooker::step(const Integrator& integrator) {
  if (values_.empty()) return;
  const double time = integrator.time();
  equations_.observe(time, integrator.y().data());
  note_extremes(time);
  if (++since_ >= steps_between || time >= glances_.time.back() + interval_) glance(time);
}

}  // namespace poise::solve
