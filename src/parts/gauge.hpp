// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"

namespace poise {

/// Pressure gauge: a little dead-end volume that gives; behind a needle it reads late and smooth.
struct Gauge : RoomDefaults {
  static constexpr About about{
      .kind = "gauge",
      .sentence = "Pressure gauge: shows the pressure at its port, through its own small volume.",
      .law = "no flow through it; volume = port_volume + give·p",
      .source = "dead-end volume"};
  static constexpr std::array parameters{
      Parameter{.name = "range",
                .quantity = Quantity::pressure,
                .low = 1 * si::bar,
                .high = 2500 * si::bar,
                .meaning = "full scale",
                .source = "the gauge's dial"},
      Parameter{.name = "give",
                .quantity = Quantity::volume,
                .fallback = 0.2 * si::cm3,
                .low = 0.0,
                .high = 20 * si::cm3,
                .meaning = "oil that the measuring element takes in from zero to full scale"},
      Parameter{.name = "accuracy",
                .quantity = Quantity::share,
                .fallback = 0.016,
                .low = 0.0005,
                .high = 0.1,
                .meaning = "class: largest error as a share of full scale",
                .source = "the gauge's dial"},
      common::port_volume(1 * si::cm3),
  };
  static constexpr std::array ports{Port{.name = "M", .meaning = "measuring point"}};
  static constexpr std::array outputs{Output{"reading", Quantity::pressure, "what the dial shows"}};
  static constexpr int oil_ports = 1;

  double volume, wall;

  Gauge(const Values& v, const Oil&) : volume(v["port_volume"]), wall(v["give"] / v["range"]) {}

  template <class T>
  Answer<Gauge, T> law(const Here<Gauge, T>&) const {
    return {};
  }
  template <class H>
  std::array<double, 1> report(const H& here) const {
    return {here.oil[0].pressure};
  }
  Space space(int) const { return {.volume = volume, .wall = wall}; }
};

}  // namespace poise
