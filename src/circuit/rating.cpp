// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "circuit/rating.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace poise {
namespace {

constexpr double psi = 6894.757293168361;  // Pa; international pound and inch, standard gravity

struct Class {
  double bar, psi;
};
constexpr std::array classes{Class{70, 1000}, Class{210, 3000}, Class{350, 5000}, Class{700, 10000}};

}  // namespace

Rating rating_from(double pressure) {
  constexpr double close = 1e-3;
  for (const Class& each : classes) {
    const double metric = each.bar * si::bar, us = each.psi * psi;
    const bool is_metric = std::abs(pressure - metric) <= close * metric;
    const bool is_us = std::abs(pressure - us) <= close * us;
    if (is_metric || is_us) return {.limit = std::min(metric, us), .alarm = std::max(metric, us)};
  }
  return {.limit = pressure, .alarm = pressure};
}

std::string_view rating_parameter(const Kind& kind) {
  // A gauge has no rating of its own: past the end of its scale it is overloaded.
  for (const std::string_view name : {"rated_pressure", "range"}) {
    const auto index = find_parameter(kind.parameters, name);
    if (index && kind.parameters[*index].quantity == Quantity::pressure && kind.oil_ports > 0) return name;
  }
  return "";
}

}  // namespace poise
