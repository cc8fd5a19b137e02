// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "solve/recorder.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <map>

namespace poise::solve {
namespace {

constexpr double line_error = 2e-4;  // of the range of a signal
constexpr int deepest = 5;           // 32 pieces of one step at the most

}  // namespace

Recorder::Recorder(Equations& equations, Trace& trace, std::size_t followed)
    : equations_(equations),
      trace_(trace),
      y_(static_cast<std::size_t>(equations.layout().size)),
      low_(trace.signals.size(), std::numeric_limits<double>::infinity()),
      high_(trace.signals.size(), -std::numeric_limits<double>::infinity()),
      last_(trace.signals.size()),
      before_time_(std::numeric_limits<double>::quiet_NaN()) {
  constexpr std::size_t usual_rows = 8192;
  trace_.values.resize(trace.signals.size());
  for (auto& column : trace_.values) column.reserve(usual_rows);
  find_copies();
  std::ranges::copy_if(distinct_, std::back_inserter(followed_), [&](std::size_t i) { return i < followed; });
}

void Recorder::find_copies() {
  std::map<int, std::size_t> first;  // signal of each node
  for (std::size_t i = 0; i < trace_.signals.size(); ++i) {
    const Signal& signal = trace_.signals[i];
    if (signal.what != Signal::What::pressure) {
      distinct_.push_back(i);
      continue;
    }
    const int node = equations_.circuit().parts[signal.part].oil[signal.index];
    const auto [at, is_new] = first.try_emplace(node, i);
    if (is_new) {
      distinct_.push_back(i);
    } else {
      copies_.emplace_back(i, at->second);
    }
  }
}

void Recorder::sample(double time, const double* y, std::vector<double>& into) {
  equations_.observe(time, y);
  into.resize(trace_.signals.size());
  for (std::size_t i : distinct_) into[i] = equations_.signal(trace_.signals[i]);
  for (const auto& [i, same] : copies_) into[i] = into[same];
}

void Recorder::push(double time, const std::vector<double>& values) {
  trace_.time.push_back(time);
  for (std::size_t i = 0; i < values.size(); ++i) trace_.values[i].push_back(values[i]);
  for (std::size_t i : distinct_) {
    low_[i] = std::min(low_[i], values[i]);
    high_[i] = std::max(high_[i], values[i]);
  }
}

void Recorder::row(double time, const double* y) {
  sample(time, y, last_);
  before_time_ = std::numeric_limits<double>::quiet_NaN();
  push(time, last_);
}

void Recorder::fill(const Integrator& integrator, double t0, const std::vector<double>& v0, double t1,
                    const std::vector<double>& v1, int depth) {
  if (depth == 0) return;
  const double middle = 0.5 * (t0 + t1);
  std::vector<double> v;
  integrator.inside(middle, y_.data());
  sample(middle, y_.data(), v);
  bool straight = true;
  for (std::size_t i : followed_) {
    const double range = std::max({high_[i], v0[i], v1[i]}) - std::min({low_[i], v0[i], v1[i]});
    straight = std::abs(v[i] - 0.5 * (v0[i] + v1[i])) <= line_error * range;
    if (!straight) break;
  }
  if (straight) return;
  fill(integrator, t0, v0, middle, v, depth - 1);
  push(middle, v);
  fill(integrator, middle, v, t1, v1, depth - 1);
}

bool Recorder::runs_straight(double t1, const std::vector<double>& v1) const {
  const double t0 = trace_.time.back(), h0 = t0 - before_time_, h1 = t1 - t0;
  if (!(h0 > 0.0) || !(h1 > 0.0)) return false;
  for (std::size_t i : followed_) {
    const double range = std::max(high_[i], v1[i]) - std::min(low_[i], v1[i]);
    const double bend = ((v1[i] - last_[i]) / h1 - (last_[i] - before_[i]) / h0) / (h0 + h1);
    if (0.5 * std::abs(bend) * h1 * h1 > line_error * range)
      return false;  // twice what the middle would be off
  }
  return true;
}

void Recorder::step(const Integrator& integrator) {
  const double t1 = integrator.time(), t0 = trace_.time.back();
  sample(t1, integrator.y().data(), now_);
  if (!runs_straight(t1, now_)) fill(integrator, t0, last_, t1, now_, deepest);
  push(t1, now_);
  before_.swap(last_);
  last_.swap(now_);
  before_time_ = t0;
}

}  // namespace poise::solve
