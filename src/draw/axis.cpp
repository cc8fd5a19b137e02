// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/axis.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace poise::draw {
namespace {

/// Widths of steps: to one scale, except those that would fall below their least width.
struct Shares {
  std::vector<double> width;
  double scale = 0.0;
};

Shares shared_out(std::span<const double> lasts, std::vector<double> least, double whole) {
  const auto count = lasts.size();
  double wanted = 0.0;
  for (const double w : least) wanted += w;
  const double most = 0.9 * whole;  // something is left to show that time goes on
  if (wanted > most) std::ranges::fill(least, most / static_cast<double>(count));
  std::vector<bool> fixed(count, false);
  Shares shares{std::vector<double>(count, 0.0), 0.0};
  for (bool again = true; again;) {
    double room = whole, time = 0.0;
    for (std::size_t i = 0; i < count; ++i) (fixed[i] ? room : time) += fixed[i] ? -least[i] : lasts[i];
    shares.scale = time > 0.0 ? room / time : 0.0;
    again = false;
    for (std::size_t i = 0; i < count; ++i) {
      if (fixed[i] || lasts[i] * shares.scale >= least[i]) continue;
      fixed[i] = again = true;
    }
  }
  for (std::size_t i = 0; i < count; ++i) shares.width[i] = fixed[i] ? least[i] : lasts[i] * shares.scale;
  return shares;
}

}  // namespace

ValueAxis value_axis(double low, double high, double from, double to, int most) {
  if (!(high > low)) high = low + std::max(1.0, 0.1 * std::abs(low));
  // The ends are moved out to ticks, which may take one more of them than fit: then the next coarser step.
  for (int count = std::max(most, 2); count >= 2; --count) {
    Ticks ticks = nice_ticks(low, high, count);
    const double a = std::floor(low / ticks.step + 1e-9) * ticks.step;
    const double b = std::ceil(high / ticks.step - 1e-9) * ticks.step;
    ticks = nice_ticks(a, b, static_cast<int>(std::lround((b - a) / ticks.step)) + 1);
    if (count > 2 && std::ssize(ticks.at) > most) continue;
    return {a, b, from, to, std::move(ticks)};
  }
  throw std::logic_error("an axis needs two ticks");
}

TimeAxis::TimeAxis(std::span<const StepSpan> steps, double left, double right,
                   std::span<const double> least) {
  if (steps.empty() || least.size() != steps.size())
    throw std::logic_error("a time axis needs steps, and a width for each");
  std::vector<double> lasts;
  for (const StepSpan& step : steps) lasts.push_back(step.end - step.begin);
  const Shares shares = shared_out(lasts, {least.begin(), least.end()}, right - left);
  scale_ = shares.scale;
  double at = left;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const double to_scale = lasts[i] * scale_;
    const bool wider = scale_ > 0.0 && shares.width[i] > 1.001 * to_scale && std::ssize(steps) > 1;
    pieces_.push_back({.name = steps[i].name,
                       .begin = steps[i].begin,
                       .end = steps[i].end,
                       .left = at,
                       .right = at + shares.width[i],
                       .wider = wider ? shares.width[i] / to_scale : 1.0});
    at += shares.width[i];
  }
  pieces_.back().right = right;
}

double TimeAxis::at(double time) const {
  const auto after = std::ranges::upper_bound(pieces_, time, {}, &Piece::begin);
  const Piece& piece = after == pieces_.begin() ? *after : *(after - 1);
  const double lasts = piece.end - piece.begin;
  if (!(lasts > 0.0)) return time < piece.begin ? piece.left : piece.right;
  return piece.left + std::clamp((time - piece.begin) / lasts, 0.0, 1.0) * (piece.right - piece.left);
}

bool TimeAxis::to_scale() const {
  return std::ranges::all_of(pieces_, [](const Piece& p) { return p.wider == 1.0; });
}

}  // namespace poise::draw
