// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/at_rest.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace poise::draw {
namespace {

constexpr int most_unknowns = max_states + max_oil_ports;
using Matrix = std::array<std::array<double, most_unknowns + 1>, most_unknowns>;

/// Solves m rows of m + 1 numbers in place (elimination with the greatest pivot); a row of zeros leaves its
/// unknown where it is.
void solve(Matrix& a, int m) {
  for (int k = 0; k < m; ++k) {
    int best = k;
    for (int r = k + 1; r < m; ++r) {
      if (std::abs(a[r][k]) > std::abs(a[best][k])) best = r;
    }
    std::swap(a[k], a[best]);
    if (a[k][k] == 0.0) continue;
    for (int r = 0; r < m; ++r) {
      if (r == k || a[r][k] == 0.0) continue;
      const double share = a[r][k] / a[k][k];
      for (int c = k; c <= m; ++c) a[r][c] -= share * a[k][c];
    }
  }
  for (int k = 0; k < m; ++k) a[k][m] = a[k][k] == 0.0 ? 0.0 : a[k][m] / a[k][k];
}

}  // namespace

AtRest::AtRest(const PlannedPart& part, const Oil& oil)
    : kind_(part.kind), oil_(oil), laws_(part.kind->make(part.values, oil)) {
  for (int s = 0; s < static_cast<int>(kind_->states.size()); ++s)
    unknown_.push_back(laws_.start(laws_.numbers.get(), s));
  for (int i = 0; i < kind_->oil_ports; ++i) {
    if (port_exists(kind_->ports[i], part.values)) continue;
    shut_.push_back(i);
    unknown_.push_back(0.0);
  }
}

void AtRest::surround(const Around& around) {
  for (std::size_t i = 0; i < around.pressure.size(); ++i) {
    const Oil::Density density = oil_.density(around.pressure[i]);
    here_.oil[i] = {around.pressure[i], density.value, 1.0, density.slope};
  }
  for (std::size_t i = 0; i < around.position.size(); ++i)
    here_.body[i] = {around.position[i], around.speed[i]};
  std::ranges::copy(around.input, here_.input.begin());
}

/// Newton's method with steps held short: openings stop at their ends, which a long step overshoots.
bool AtRest::settle() {
  constexpr int rounds = 200;
  constexpr double state_step = 0.25, pressure_step = 20 * si::bar, fine = 1e-9, fine_pressure = 1.0;
  const int states = static_cast<int>(kind_->states.size()), count = static_cast<int>(unknown_.size());
  if (count == 0) return true;
  const int lanes = kind_->lanes(), first_state = kind_->oil_ports + 2 * kind_->motion_ports;
  const int first_rate = kind_->oil_ports + kind_->motion_ports;
  const auto row = [&](int k) { return k < states ? first_rate + k : shut_[k - states]; };
  const auto lane = [&](int k) { return k < states ? first_state + k : shut_[k - states]; };
  for (int round = 0; round < rounds; ++round) {
    for (int k = 0; k < count; ++k) {
      if (k < states) {
        here_.state[k] = unknown_[k];
      } else {
        const Oil::Density density = oil_.density(unknown_[k]);
        here_.oil[shut_[k - states]] = {unknown_[k], density.value, 1.0, density.slope};
      }
    }
    Answers answers;
    LocalJacobian slopes;
    laws_.answer(laws_.numbers.get(), here_, answers);
    laws_.jacobian(laws_.numbers.get(), here_, slopes);
    Matrix a{};
    for (int r = 0; r < count; ++r) {
      for (int c = 0; c < count; ++c)
        a[r][c] = slopes[static_cast<std::size_t>(row(r)) * lanes + static_cast<std::size_t>(lane(c))];
      a[r][count] = -answers.row[row(r)];
    }
    solve(a, count);
    bool rests = true;
    const double held = round < rounds / 2 ? 1.0 : 0.2;  // a step that swings to and fro comes to rest so
    for (int k = 0; k < count; ++k) {
      const double most = held * (k < states ? state_step : pressure_step + 0.2 * std::abs(unknown_[k]));
      const double step = std::clamp(a[k][count], -most, most);
      if (!std::isfinite(step)) return false;
      unknown_[k] += step;
      rests = rests && std::abs(step) <= (k < states ? fine : fine_pressure);
    }
    if (rests) return true;
  }
  return false;
}

std::optional<std::vector<double>> AtRest::flows(const Around& around) {
  surround(around);
  if (!settle()) return std::nullopt;
  Answers answers;
  laws_.answer(laws_.numbers.get(), here_, answers);
  std::vector<double> flows;
  for (int i = 0; i < kind_->oil_ports; ++i) flows.push_back(answers.row[i] / here_.oil[i].density);
  return flows;
}

}  // namespace poise::draw
