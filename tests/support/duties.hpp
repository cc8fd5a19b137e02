// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <initializer_list>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "parts/kind.hpp"

namespace poise::workshop {

/// What a part went through where each of its values stood still.
struct Steady {
  std::vector<double> pressure, flow, position, speed, output;
};
inline std::vector<Reach> still(const std::vector<double>& values) {
  std::vector<Reach> all;
  for (double value : values) all.push_back({value, value});
  return all;
}
inline Duty duty_of(const Steady& s) {
  return {.pressure = still(s.pressure),
          .flow = still(s.flow),
          .position = still(s.position),
          .speed = still(s.speed),
          .output = still(s.output),
          .duration = 1.0};
}

/// Something for every port, motion and output of a kind: pressures from 1 to 180 bar, flows both ways, a
/// motion over 10 mm both ways, outputs up to 1000.
inline Duty plausible_duty(const Kind& kind) {
  Duty duty{.duration = 10.0};
  for (int i = 0; i < kind.oil_ports; ++i) {
    duty.pressure.push_back({1e5 + 1e4 * i, (180.0 - 10.0 * i) * 1e5});
    duty.flow.push_back({-(6.0 + i) * si::litre_per_minute, (8.0 - i) * si::litre_per_minute});
  }
  for (int i = 0; i < kind.motion_ports; ++i) {
    duty.position.push_back({0.0, 10e-3});
    duty.speed.push_back({-0.04, 0.05});
  }
  for (std::size_t i = 0; i < kind.outputs.size(); ++i) duty.output.push_back({0.0, 1000.0});
  return duty;
}

/// The calculation with this result whose name begins so; throws where there is none.
inline const Working& working(const std::vector<Working>& all, std::string_view symbol,
                              std::string_view name = {}) {
  for (const Working& w : all) {
    if (w.result.symbol == symbol && w.name.starts_with(name)) return w;
  }
  throw std::runtime_error("no calculation of " + std::string(symbol) + " named " + std::string(name));
}
inline double result(const std::vector<Working>& all, std::string_view symbol, std::string_view name = {}) {
  return working(all, symbol, name).result.value;
}

}  // namespace poise::workshop
