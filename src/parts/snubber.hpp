// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/line_care.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// What holds for every restriction before a gauge.
namespace damping_rules {
inline constexpr Rule no_spikes{
    .name = "damped gauge proves no peak",
    .sentence = "A highest pressure read behind a snubber is an average; judge peaks at the line itself."};
}  // namespace damping_rules

/// Snubber: a fixed sharp-edged hole, before a gauge or in a pilot line. With the small volume and give
/// behind it, it is a first-order lag: T = (dΔp/dQ)·(V/K_e + C_wall).
struct Snubber : RoomDefaults {
  static constexpr About about{
      .kind = "snubber",
      .sentence = "Snubber: a small fixed hole that damps a gauge or a pilot line.",
      .law = "drop = a·Q² + a·Q_t·Q, a = density/(2·0.62²·A²), A = π/4·bore², Q_t at Re = 100",
      .source = "sharp-edged orifice, Merritt, Hydraulic Control Systems (from memory)",
      .beside = "bore {bore}"};
  static constexpr std::array parameters{
      Parameter{.name = "bore",
                .quantity = Quantity::length,
                .fallback = 0.3 * si::mm,
                .low = 0.02 * si::mm,
                .high = 10 * si::mm,
                .meaning = "diameter of the hole",
                .source = "0.2 to 0.5 mm common practice",
                .tolerance = 0.05},
      common::rated_pressure(),
      common::port_volume(0.2 * si::cm3),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "line"},
      Port{.name = "B", .meaning = "gauge"},
  };
  static constexpr std::array faults{
      Fault{.name = "hole is blocked",
            .sentence = "Dirt in the hole: the gauge follows late, and in the end not at all.",
            .parameter = "bore",
            .change = Fault::Change::times,
            .slight = 0.5,
            .grave = 0.07},
      Fault{.name = "wrong hole fitted",
            .sentence = "Bored out or missing: the needle blurs, and what it damps moves too fast.",
            .parameter = "bore",
            .change = Fault::Change::times,
            .slight = 1.5,
            .grave = 5.0,
            .comes = Comes::after_work},
  };
  static constexpr std::array rules{damping_rules::no_spikes};
  static constexpr std::array care{upkeep::hole_free};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(line(0, -1, 0, 1), path(-1.1, 0.9, -0.25, 0, -1.1, -0.9), path(1.1, 0.9, 0.25, 0, 1.1, -0.9));
  }();
  static constexpr std::array anchors{Anchor{0, -1}, Anchor{0, 1}};
  static constexpr int oil_ports = 2;

  Orifice hole;
  double volume;

  Snubber(const Values& v, const Oil& oil)
      : hole{.area = circle(v["bore"]), .viscosity = oil.viscosity_law()}, volume(v["port_volume"]) {}

  template <class T>
  Answer<Snubber, T> law(const Here<Snubber, T>& here) const {
    Answer<Snubber, T> a;
    a.inflow[0] = mass_flow(hole.flow(here.oil[0], here.oil[1], T(1.0)), here.oil[0], here.oil[1]);
    a.inflow[1] = -a.inflow[0];
    return a;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

/// Capillary: a long thin bore, laminar, whose drop grows with the flow itself and with the viscosity.
struct Capillary : RoomDefaults {
  static constexpr About about{
      .kind = "capillary",
      .sentence = "Capillary: a long thin bore that damps a gauge; its drop follows the viscosity.",
      .law = "drop = 128·viscosity·density·length/(π·bore⁴)·Q + end_loss·density·v²/2",
      .source =
          "Hagen and Poiseuille; R. W. Fox and A. T. McDonald, Introduction to Fluid Mechanics, 5th ed., "
          "example 8.4; end loss 1.12·density·v² after Boussinesq (from memory)",
      .beside = "{bore} × {length}"};
  static constexpr std::array parameters{
      Parameter{.name = "bore",
                .quantity = Quantity::length,
                .fallback = 0.5 * si::mm,
                .low = 0.05 * si::mm,
                .high = 5 * si::mm,
                .meaning = "inner diameter",
                .tolerance = 0.05},
      Parameter{.name = "length",
                .quantity = Quantity::length,
                .low = 5 * si::mm,
                .high = 100.0,
                .meaning = "length of the bore"},
      Parameter{.name = "end_loss",
                .fallback = 2.24,
                .low = 0.0,
                .high = 10.0,
                .meaning = "loss coefficient K of inlet, start of the flow and outlet together",
                .source = "Boussinesq (from memory)"},
      common::rated_pressure(),
      common::port_volume(0.2 * si::cm3),
  };
  static constexpr auto ports = Snubber::ports;
  static constexpr std::array faults{Fault{
      .name = "bore is blocked",
      .sentence = "Dirt or cold thick oil in the bore: the gauge follows late, and in the end not at all.",
      .parameter = "bore",
      .change = Fault::Change::times,
      .slight = 0.7,
      .grave = 0.2}};
  static constexpr std::array rules{damping_rules::no_spikes};
  static constexpr std::array care{upkeep::hole_free};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(line(0, -2, 0, 2), bow(-1, 1.75, -1, -1.75, 0.6), bow(1, -1.75, 1, 1.75, 0.6));
  }();
  static constexpr std::array anchors{Anchor{0, -2}, Anchor{0, 2}};
  static constexpr int oil_ports = 2;

  Viscosity viscosity;  ///< that of the upstream side counts
  double laminar;       ///< b per viscosity and density
  double turbulent;     ///< a per density
  double volume;

  Capillary(const Values& v, const Oil& oil)
      : viscosity(oil.viscosity_law()),
        laminar(128.0 * v["length"] / (std::numbers::pi * std::pow(v["bore"], 4))),
        turbulent(0.5 * v["end_loss"] / (circle(v["bore"]) * circle(v["bore"]))),
        volume(v["port_volume"] + 0.5 * circle(v["bore"]) * v["length"]) {}

  template <class T>
  Answer<Capillary, T> law(const Here<Capillary, T>& here) const {
    const auto& [in, out] = here.oil;
    const T drop = in.pressure - out.pressure;
    const T density = drop > 0.0 ? in.density : out.density;
    const T b = laminar * density * viscosity_at(drop > 0.0 ? in.pressure : out.pressure, viscosity);
    const T a = turbulent * density;
    const T flow = 2.0 * drop / (b + sqrt(4.0 * a * magnitude(drop) + b * b));
    Answer<Capillary, T> answer;
    answer.inflow[0] = mass_flow(flow, in, out);
    answer.inflow[1] = -answer.inflow[0];
    return answer;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
