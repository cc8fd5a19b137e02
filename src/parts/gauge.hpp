// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/line_care.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Pressure gauge: a little dead-end volume that gives; behind a needle it reads late and smooth.
struct Gauge : RoomDefaults {
  static constexpr About about{
      .kind = "gauge",
      .sentence = "Pressure gauge: shows the pressure at its port, through its own small volume.",
      .law = "no flow through it; volume = port_volume + give·p/range; reading = zero_error·range + gain·p",
      .source = "dead-end volume",
      .beside = "0 to {range}"};
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
      Parameter{.name = "zero_error",
                .quantity = Quantity::share,
                .fallback = 0.0,
                .low = -0.5,
                .high = 0.5,
                .meaning = "what the dial shows without pressure, as a share of full scale",
                .tolerance = {0.016, 0.016, Tolerance::Of::absolute}},
      Parameter{.name = "gain",
                .quantity = Quantity::share,
                .fallback = 1.0,
                .low = 0.0,
                .high = 2.0,
                .meaning = "how much the dial shows of a change of pressure: 1 is right, 0 is stuck"},
      common::port_volume(1 * si::cm3),
  };
  static constexpr std::array ports{Port{.name = "M", .meaning = "measuring point"}};
  static constexpr std::array outputs{Output{"reading", Quantity::pressure, "what the dial shows"}};
  static constexpr std::array faults{
      Fault{.name = "zero is off",
            .sentence = "It does not stand at zero when nothing presses; motions and forces are right.",
            .parameter = "zero_error",
            .change = Fault::Change::becomes,
            .slight = 0.02,
            .grave = 0.10,
            .source = "gauge guide on failure modes and calibration; sizes common practice"},
      Fault{.name = "reads too little",
            .sentence =
                "Forces and times are right and the reading is low: someone will raise a relief for it.",
            .parameter = "gain",
            .change = Fault::Change::times,
            .slight = 0.97,
            .grave = 0.85,
            .source = "gauge guide on failure modes and calibration; sizes common practice",
            .comes = Comes::after_work},
      Fault{.name = "reads too much",
            .sentence = "Forces are lower than the reading says: a clamp that looks right is weak.",
            .parameter = "gain",
            .change = Fault::Change::times,
            .slight = 1.03,
            .grave = 1.15,
            .source = "gauge guide on failure modes and calibration; sizes common practice",
            .comes = Comes::after_work},
      Fault{.name = "stuck",
            .sentence = "The needle does not follow: a broken movement, or a shut cock before it.",
            .parameter = "gain",
            .change = Fault::Change::becomes,
            .slight = 0.0,
            .grave = 0.0,
            .source = "gauge guide on failure modes and calibration",
            .comes = Comes::suddenly},
  };
  static constexpr std::array rules{

      Rule{.name = "gauge calibrated",
           .sentence = "Compared with a master within the year, before anything is judged by it.",
           .source = "gauge guide on calibration"},
      Rule{.name = "scale in tons", .sentence = "A scale in tons holds for one cylinder area only."},
  };
  static constexpr std::array care{upkeep::gauge_zero, upkeep::gauge_calibrated};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(circle(0, 0, 2), line(0, -3, 0, -2), arrow(-1, -1, 1.1, 1.1));
  }();
  static constexpr std::array anchors{Anchor{0, -3}};
  static constexpr int oil_ports = 1;

  double volume, wall, gain, zero;

  Gauge(const Values& v, const Oil&)
      : volume(v["port_volume"]),
        wall(v["give"] / v["range"]),
        gain(v["gain"]),
        zero(v["zero_error"] * v["range"]) {}

  template <class T>
  Answer<Gauge, T> law(const Here<Gauge, T>&) const {
    return {};
  }
  template <class H>
  std::array<double, 1> report(const H& here) const {
    return {zero + gain * here.oil[0].pressure};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume, .wall = wall}; }
};

}  // namespace poise
