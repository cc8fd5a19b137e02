// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/drive_care.hpp"
#include "parts/piston.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Single-stroke intensifier: a large piston at A pushes a plunger into B. R is the ring-shaped chamber
/// between them.
struct Intensifier : RoomDefaults {
  static constexpr std::array<std::string_view, 2> chambers{"vented", "oil"};
  static constexpr About about{
      .kind = "intensifier",
      .sentence =
          "Single-stroke intensifier: low pressure on a large piston makes high pressure on a small one, for "
          "the "
          "volume of one stroke.",
      .law =
          "moving_mass · dv/dt = p_A·ratio·a − p_B·a − p_R·(ratio − 1)·a − spring − friction − stops, a = "
          "π/4·plunger²; at rest p_B = ratio·p_A − (ratio − 1)·p_R less spring and friction; the plunger's "
          "seal "
          "leaks from B to R",
      .source =
          "force balance; A. Esposito, Fluid Power with Applications, 6th ed., example 11-1 (check value "
          "MI-03)",
      .beside = "ratio {ratio}\n{plunger} × {stroke}"};
  static constexpr std::array parameters{
      Parameter{.name = "ratio",
                .low = 1.05,
                .high = 100.0,
                .meaning = "piston area at A over plunger area at B",
                .source = "the intensifier's datasheet; 1.5 to 20 oil to oil, common practice"},
      Parameter{.name = "plunger",
                .quantity = Quantity::length,
                .low = 2 * si::mm,
                .high = 1.0,
                .meaning = "diameter of the plunger at B",
                .source = "the intensifier's datasheet",
                .tolerance = 0.0025},
      Piston::stroke_line(),
      Parameter{.name = "return_chamber",
                .fallback = 1.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "what the chamber between the pistons holds: air (vented), or oil through R",
                .words = chambers},
      Piston::spring_preload(),
      Piston::spring_rate(),
      Piston::friction(),
      Piston::seal_friction(),
      Piston::damping_line(),
      Parameter{.name = "moving_mass",
                .quantity = Quantity::mass,
                .fallback = 5.0,
                .low = 0.01,
                .high = 1e5,
                .meaning = "mass of the two pistons"},
      Piston::start_position(),
      Parameter{.name = "dead_volume",
                .quantity = Quantity::volume,
                .fallback = 5 * si::cm3,
                .low = 0.1 * si::cm3,
                .high = 10 * si::litre,
                .meaning = "oil at the end of the stroke, in each chamber"},
      common::leakage(
          "flow past the plunger's seal from B to R at the rated pressure (350 bar if none is given); with "
          "a vented chamber there is none"),
      common::rated_pressure(),
      Piston::creep_speed_line(),
      Piston::stop_stiffness_line(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "low-pressure side"},
      Port{.name = "B", .meaning = "high-pressure side"},
      Port{.name = "R",
           .meaning = "chamber between the pistons, to tank or to the return line",
           .needed_if_parameter = "return_chamber",
           .needed_if_word = 1},
      Port{.name = "piston",
           .domain = Domain::motion,
           .meaning = "the pistons: positive presses into B; stays free",
           .may_stay_free = true},
  };
  static constexpr std::array happenings{Happening{"is at the end of its stroke"},
                                         Happening{"is fully back"}};
  static constexpr std::array faults{
      Fault{.name = "plunger seal leaks",
            .sentence = "the high pressure sinks and the piston runs on to the end of its stroke",
            .parameter = "leakage",
            .change = Fault::Change::becomes,
            .slight = 1 * si::cm3_per_minute,
            .grave = 500 * si::cm3_per_minute},
      Fault{.name = "seals rub",
            .sentence = "less pressure than the ratio promises, and it holds some when A is let off",
            .parameter = "seal_friction",
            .slight = 2.0,
            .grave = 5.0},
  };
  static constexpr std::array rules{

      Rule{
          .name = "stroke for the compressed oil",
          .sentence =
              "One stroke must fill what B still needs to move, compress its oil and swell its hoses; at 700 "
              "bar oil alone takes some 4 % of its volume."},
      Rule{.name = "return chamber free",
           .sentence = "Every bar in R takes (ratio − 1) bar from B; a plugged vent locks the piston."},
  };
  static constexpr std::array care{upkeep::intensifier_ends, upkeep::return_free};
  static constexpr auto sketch = [](bool oil, double at) {
    using namespace stroke;
    using namespace pieces;
    const double piston = 1.5 + 2 * at;
    Sketch s;
    s.add(box(0, 0, 6, 4), box(6, 1, 11, 3), box(piston, 0, piston + 1, 4),
          box(piston + 1, 1.25, piston + 5.5, 2.75), line(-1, 2, 0, 2), line(11, 2, 12, 2),
          filled(1.25, 2, 1, 0), filled(10.75, 2, 1, 0));
    if (oil) s.add(line(5, -1, 5, 0));
    return s;
  };
  static constexpr auto symbol = sketch(true, 0.0);
  static constexpr std::array anchors{Anchor{-1, 2}, Anchor{12, 2}, Anchor{5, -1}, Anchor{2, 4}};
  static std::vector<Stroke> drawn(const Values& v, const Pose& pose) {
    return pieces::strokes(sketch(v.word("return_chamber") == 1, pose.share(0, v["stroke"], 0.0)));
  }
  static constexpr int oil_ports = 3, motion_ports = 1;

  double area_a, area_b, area_r, mass, start_at, dead;
  Piston piston;
  Leak leak;

  Intensifier(const Values& v, const Oil&)
      : area_a(v["ratio"] * circle(v["plunger"])),
        area_b(circle(v["plunger"])),
        area_r(v.word("return_chamber") == 1 ? area_a - area_b : 0.0),
        mass(v["moving_mass"]),
        start_at(v["start_position"]),
        dead(v["dead_volume"]),
        piston(Piston::from(v, v["stroke"], true)),
        leak(Leak::at(area_r > 0.0 ? v["leakage"] : 0.0, common::leakage_pressure(v))) {}

  static std::vector<Mismatch> check(const Values& v) { return Piston::check(v); }

  template <class T>
  Answer<Intensifier, T> law(const Here<Intensifier, T>& here) const {
    const auto& [a, b, r] = here.oil;
    const T pressing =
        positive(a.pressure) * area_a + positive(b.pressure) * area_b + positive(r.pressure) * area_r;
    const T friction = piston.rub(here.body[0], pressing);
    Answer<Intensifier, T> answer;
    answer.inflow[1] = mass_flow(leak.flow(T(b.pressure - r.pressure)), b, r);
    answer.inflow[2] = -answer.inflow[1];
    answer.force[0] = a.pressure * area_a - b.pressure * area_b - r.pressure * area_r - friction +
                      piston.ends(here.body[0]);
    const auto body = values_of(here.body[0]);
    answer.friction = value_of(friction) * body.speed + piston.stop_heat(body);
    return answer;
  }
  template <class H>
  std::array<double, 2> passing(const H& here) const {
    return piston.at_ends(here.body[0].position);
  }
  template <class H>
  double stored(const H& here) const {
    return piston.stored(here.body[0].position);
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int port) const {
    if (port == 0) return {.volume = dead, .swept = {area_a}};
    const double area = port == 1 ? area_b : area_r;
    return {.volume = dead + area * piston.stroke, .swept = {-area}};
  }
  Body body(int) const { return {.mass = mass, .start = start_at}; }
};

}  // namespace poise
