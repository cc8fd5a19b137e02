// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "circuit/heat_balance.hpp"

namespace poise {

HeatBalance heat_balance_of(const Circuit& circuit, double without_path) {
  HeatBalance balance;
  double weighted = 0.0, oil = 0.0;
  for (int p = 0; p < circuit.planned; ++p) {
    const HeatPath path = circuit.parts[p].kind->heat_path(circuit.parts[p].values);
    balance.conductance += path.conductance;
    balance.capacity += path.capacity;
    weighted += path.conductance * path.surroundings;
  }
  for (const OilNode& node : circuit.nodes) oil += circuit.oil.density_at_zero() * node.volume;
  balance.capacity += oil * circuit.oil.heat_capacity();
  balance.surroundings = balance.conductance > 0.0 ? weighted / balance.conductance : without_path;
  return balance;
}

std::vector<WarmUpPoint> course_of(const HeatBalance& balance, double start,
                                   const std::function<double(double)>& heat) {
  constexpr int constants = 5, steps_each = 100;
  const double constant = balance.conductance > 0.0 ? balance.capacity / balance.conductance : 3600.0;
  const double h = constant / steps_each;
  const auto rate = [&](double t) { return (heat(t) - balance.loss(t)) / balance.capacity; };
  std::vector<WarmUpPoint> course{{0.0, start}};
  for (int i = 1; i <= constants * steps_each; ++i) {
    const double t = course.back().temperature;
    const double k1 = rate(t), k2 = rate(t + 0.5 * h * k1), k3 = rate(t + 0.5 * h * k2),
                 k4 = rate(t + h * k3);
    course.push_back({i * h, t + h / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4)});
  }
  return course;
}

}  // namespace poise
