// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <stdexcept>
#include <vector>

#include "parts/laws.hpp"
#include "support/workshop.hpp"

/// A number of a published source, found by Poise's own code: `recomputed` is the source's example worked out
/// again in full precision and must be met within 0.1 %; `printed` is what the source prints, met within the
/// rounding of the source, in per cent.
#define EXPECT_VALUE(found, recomputed, printed, rounding_percent)                 \
  do {                                                                             \
    const double found_here = found;                                               \
    EXPECT_NEAR(found_here, recomputed, 1e-3 * std::abs(recomputed));              \
    EXPECT_NEAR(found_here, printed, 0.01 * (rounding_percent)*std::abs(printed)); \
  } while (false)

namespace poise::check {

using workshop::at;
using workshop::Bench;
using workshop::first_above;
using workshop::last;

/// The units of the sources, exact by definition.
inline constexpr double inch = 0.0254, foot = 12 * inch, in2 = inch * inch, in3 = in2 * inch;
inline constexpr double foot3 = foot * foot * foot;
inline constexpr double lbf = 0.45359237 * si::gravity, psi = lbf / in2;
inline constexpr double gallon = 231 * in3, gpm = gallon / 60.0;
inline constexpr double horsepower = 550 * lbf * foot;
inline constexpr double rpm = si::per_minute;
/// Density of water at 60 °F, from which the sources count specific gravity, kg/m3 (from memory).
inline constexpr double water = 999.1;

inline double diameter_of(double area) { return std::sqrt(4.0 * area / std::numbers::pi); }

/// Oil as the sources take it: of one density and one viscosity, hardly compressible (1,000 kbar) and without
/// air.
inline OilData plain_oil(double density = 870.0, double viscosity = 46e-6) {
  return {.viscosity_40 = viscosity,
          .viscosity_100 = 0.9 * viscosity,
          .density_15 = density,
          .expansivity = 0.0,
          .modulus = 1e11,
          .modulus_slope = 0.0,
          .air = 0.0};
}
/// The thinnest liquid that the law of viscosity knows, for sources that leave the laminar term of an orifice
/// out.
inline OilData thin_oil(double density) { return plain_oil(density, 0.35e-6); }

/// Ram without any friction, `out` of its stroke.
inline void add_ram(Bench& b, const std::string& tag, double area, double stroke = 1.0, double out = 0.5) {
  b.part(tag, "single_acting_cylinder",
         {{"bore", diameter_of(area)},
          {"stroke", stroke},
          {"start_position", out},
          {"friction", 0.0},
          {"seal_friction", 0.0},
          {"damping", 0.0}});
}
/// Double-acting cylinder without any friction.
inline void add_cylinder(Bench& b, const std::string& tag, double bore, double rod, double stroke,
                         double out) {
  b.part(tag, "double_acting_cylinder",
         {{"bore", bore},
          {"rod", rod},
          {"stroke", stroke},
          {"start_position", out},
          {"friction", 0.0},
          {"seal_friction", 0.0},
          {"damping", 0.0}});
}
inline constexpr double dead_weight_area = 0.1;
/// A ram under a force, on whose port (`tag`.A) the pressure is the same at any flow.
inline void add_dead_weight(Bench& b, const std::string& tag, double pressure) {
  add_ram(b, tag, dead_weight_area, 4.0, 2.0);
  b.set(tag, "damping", 1e3);
  b.part(tag + "_weight", "force", {{"force", pressure * dead_weight_area}});
  b.join({tag + ".rod", tag + "_weight.rod"});
}
/// Reservoir T1 and pump P1 without losses.
inline void add_pump(Bench& b, double flow) {
  b.part("T1", "reservoir", {{"usable_oil", 1.0}});
  b.part("P1", "pump",
         {{"flow", flow},
          {"volumetric_efficiency", 1.0},
          {"mechanical_efficiency", 1.0},
          {"rated_pressure", 250 * si::bar}});
  b.join({"T1.T", "P1.S"});
}

/// A tube between a pump and a reservoir, as the sources' pipes.
struct Pipe {
  double flow, bore, length;
  double density = 870.0, viscosity = 46e-6;
  double roughness = 0.0, fittings = 0.0;
};
struct Losses {
  double pressure, power, velocity, reynolds;
};
inline Losses losses(const Pipe& pipe) {
  Bench b;
  b.plan.oil = plain_oil(pipe.density, pipe.viscosity);
  add_pump(b, pipe.flow);
  b.part("L1", "tube",
         {{"bore", pipe.bore},
          {"length", pipe.length},
          {"roughness", pipe.roughness},
          {"fittings", pipe.fittings}});
  b.join({"P1.P", "L1.A"});
  b.join({"L1.B", "T1.T"});
  b.step("run", 2.0, {{"P1", "running", 1.0, 0.5}});
  const Trace t = b.run({"L1.A.pressure", "P1.shaft_power", "L1.velocity", "L1.reynolds"});
  return {last(t, "L1.A.pressure"), last(t, "P1.shaft_power"), last(t, "L1.velocity"),
          last(t, "L1.reynolds")};
}

/// Pressure at the foot of a standing pipe.
inline double foot_of_pipe(double height, double density) {
  Bench b;
  b.plan.oil = plain_oil(density, 1e-6);
  b.part("T1", "reservoir", {{"usable_oil", 1.0}});
  b.part("L1", "tube", {{"bore", 20 * si::mm}, {"length", height}, {"rise", -height}});
  b.join({"T1.T", "L1.A"});
  b.plug("L1.B");
  b.step("stand", 1.0);
  return last(b.run({"L1.B.pressure"}), "L1.B.pressure");
}

/// Power that a pump without losses takes at a pressure.
inline double pump_power(double flow, double pressure) {
  Bench b;
  b.plan.oil = plain_oil();
  add_pump(b, flow);
  add_dead_weight(b, "W1", pressure);
  b.join({"P1.P", "W1.A"});
  b.step("hold", 3.0, {{"P1", "running", 1.0, 0.5}});
  return last(b.run({"P1.shaft_power"}), "P1.shaft_power");
}

/// Volume that a ram takes over a way, by a pump's flow and the time it needs.
inline double volume_taken(double area, double way) {
  const double flow = area * way / 10.0;
  Bench b;
  b.plan.oil = plain_oil();
  add_pump(b, flow);
  add_ram(b, "C1", area, 2.0 * way, 0.0);
  b.set("C1", "damping", 1e4);
  b.join({"P1.P", "C1.A"});
  b.step("fill", 11.0, {{"P1", "running", 1.0}});
  return flow * first_above(b.run({"C1.position"}), "C1.position", way);
}

/// Mean of a signal between two times, weighted by sin² so that ringing about it drops out.
inline double mean(const Trace& trace, std::string_view signal, double from, double to) {
  constexpr int rows = 2000;
  double sum = 0.0, weights = 0.0;
  for (int i = 1; i < rows; ++i) {
    const double share = static_cast<double>(i) / rows, root = std::sin(std::numbers::pi * share);
    sum += root * root * at(trace, signal, from + share * (to - from));
    weights += root * root;
  }
  return sum / weights;
}

/// How far a signal has turned in its oscillation in the middle of a time, rad, against one of angular
/// frequency `turning`; weighted by sin² so that other oscillations drop out.
inline double phase(const Trace& trace, std::string_view signal, double from, double to, double turning) {
  constexpr int rows = 4000;
  const double middle = mean(trace, signal, from, to);
  double c = 0.0, s = 0.0;
  for (int i = 1; i < rows; ++i) {
    const double share = static_cast<double>(i) / rows, time = from + share * (to - from);
    const double root = std::sin(std::numbers::pi * share);
    const double v = root * root * (at(trace, signal, time) - middle);
    c += v * std::cos(turning * time);
    s -= v * std::sin(turning * time);
  }
  return std::atan2(s, c);
}

/// Oscillations of a signal per second between two times: roughly by its ways up through its mean, then by
/// how its phase moves from the first half of the time to the second.
inline double frequency(const Trace& trace, std::string_view signal, double from, double to) {
  const auto& v = trace.values[static_cast<std::size_t>(trace.column(signal))];
  const double middle = mean(trace, signal, from, to), half = 0.5 * (from + to);
  std::vector<double> rises;
  for (std::size_t i = 1; i < v.size(); ++i) {
    if (trace.time[i - 1] >= from && trace.time[i] <= to && v[i - 1] < middle && v[i] >= middle)
      rises.push_back(trace.time[i]);
  }
  if (rises.size() < 5) throw std::runtime_error("too few oscillations");
  const double turning =
      2 * std::numbers::pi * static_cast<double>(rises.size() - 1) / (rises.back() - rises.front());
  const double moved = phase(trace, signal, half, to, turning) - phase(trace, signal, from, half, turning);
  return (turning + std::remainder(moved, 2 * std::numbers::pi) / (half - from)) / (2 * std::numbers::pi);
}

/// Where a function that is nearly a straight line takes a value, by secants from two places.
template <class F>
double argument_for(double target, double x0, double x1, F function) {
  double y0 = function(x0) - target, y1 = function(x1) - target;
  for (int i = 0; i < 20 && std::abs(y1) > 2e-5 * std::abs(target) && y1 != y0; ++i) {
    const double x = x1 - y1 * (x1 - x0) / (y1 - y0);
    x0 = x1;
    y0 = y1;
    x1 = x;
    y1 = function(x1) - target;
  }
  EXPECT_NEAR(y1, 0.0, 2e-5 * std::abs(target)) << "no such argument found";
  return x1;
}

}  // namespace poise::check
