// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/bore.hpp"
#include "parts/line_care.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/tube_wall.hpp"

namespace poise {

/// Hose: a line whose walls give.
struct Hose : RoomDefaults {
  static constexpr About about{
      .kind = "hose",
      .sentence = "Hose: resists the flow and swells with pressure.",
      .law =
          "drop = (f·length/bore + fittings)·density·v²/2, f by Churchill at every "
          "Reynolds number; volume grows by "
          "softening·expansion·length·p; drop = p_A − p_B − density·g·rise; with inertia "
          "length/area · dw/dt = p_A − p_B − density·g·rise − drop",
      .source = "Darcy–Weisbach; S. W. Churchill, Chemical Engineering 84 (1977) 91",
      .role = Role::line,
      .beside = "{bore} × {length}"};
  static constexpr std::array parameters{
      Parameter{.name = "bore",
                .quantity = Quantity::length,
                .low = 1 * si::mm,
                .high = 100 * si::mm,
                .meaning = "inner diameter",
                .source = "the hose's datasheet",
                .series = Series::hose_bores},
      line_length(),
      Parameter{.name = "expansion",
                .quantity = Quantity::expansion,
                .fallback = 0.01 * si::cm3 / si::bar,
                .low = 0.0,
                .high = 1 * si::cm3 / si::bar,
                .meaning = "swelling: volume per metre and pressure (default: 3.5 cm3/m at 350 bar)",
                .source = "the hose's datasheet; default common practice",
                .tolerance = 0.3},
      Parameter{.name = "expansion_curve",
                .quantity = Quantity::pressure,
                .low = 0.0,
                .high = 1500 * si::bar,
                .meaning =
                    "instead of expansion: points of pressure and growth of volume per metre, in cm3/m; a "
                    "straight line through zero is laid through them",
                .source = "the hose's datasheet",
                .optional = true,
                .against = Quantity::area,
                .tolerance = 0.3},
      line_fittings(),
      line_rise(),
      line_segments(),
      line_inertia(),
      Parameter{.name = "softening",
                .fallback = 1.0,
                .low = 0.1,
                .high = 100.0,
                .meaning = "swelling over that of the datasheet: above 1 aged, swollen or the wrong hose"},
      common::rated_pressure(),
      Parameter{.name = "burst_pressure",
                .quantity = Quantity::pressure,
                .low = 2 * si::bar,
                .high = 6000 * si::bar,
                .meaning = "least pressure at which it may burst; left out, it is not watched",
                .source = "the hose's datasheet",
                .optional = true},
  };
  static constexpr std::array faults{
      Fault{.name = "soft or wrong hose",
            .sentence =
                "It swells more than it should: late, extra strokes of a hand pump, springs back on release.",
            .parameter = "softening",
            .change = Fault::Change::times,
            .slight = 3.0,
            .grave = 10.0,
            .comes = Comes::after_work},
      Fault{
          .name = "crushed or liner loose",
          .sentence =
              "The bore is narrowed: slow; in a tank line relief readings, returns and drains all suffer at "
              "once.",
          .parameter = "fittings",
          .change = Fault::Change::plus,
          .slight = 30.0,
          .grave = 900.0},
  };
  static constexpr std::array rules{

      Rule{.name = "hose age",
           .sentence = "Six years at most, two of them in store; less where it is bent, hot or chafed.",
           .source = "DIN 20066 as quoted in a lift manual"},
      Rule{.name = "hose bend",
           .sentence = "No tighter than its least bending radius, with 2 to 4 % of slack.",
           .source = "hose selection notes"},
      Rule{.name = "hose whip",
           .sentence = "Restrain or shield it where people are near, and nobody stands in line with its end; "
                       "search for leaks with cardboard, never with a hand.",
           .source = "university page on ISO 4413; contractor's list of hose hazards; safety article on "
                     "injection"},

  };
  static constexpr auto ports = line_ports;
  static constexpr std::array outputs{line_velocity(), line_reynolds()};
  static constexpr std::array care{upkeep::hose_cover, upkeep::hose_lie, upkeep::hose_age};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    using stroke::line;
    return join(bow(-2.5, 0, 2.5, 0, -1.25), dot(-2.5, 0), dot(2.5, 0), line(-3, 0, -2.5, 0),
                line(2.5, 0, 3, 0));
  }();
  static constexpr std::array anchors{Anchor{-3, 0}, Anchor{3, 0}};
  static constexpr int oil_ports = 2;

  Bore line;

  Hose(const Values& v, const Oil& oil)
      : line(v["bore"], piece_of(v), 0.0, v["fittings"] / pieces(v), swelling(v) * piece_of(v), oil,
             v["rise"] / pieces(v)) {}
  /// Volume per metre and pressure, m3/(m·Pa): as given, or by least squares through zero and the curve.
  static double swelling(const Values& v);
  static std::vector<CurveFit> curves(const Values& v, const Oil&);
  static std::vector<Mismatch> check(const Values& v) { return whole_pieces(v); }
  static int pieces(const Values& v) { return line_pieces(v); }
  static const Kind* as_built(const Values& v);
  static double piece_of(const Values& v) { return v["length"] / pieces(v); }

  template <class T>
  Answer<Hose, T> law(const Here<Hose, T>& here) const {
    const T w = line.mass_flow(here.oil[0], here.oil[1]);
    Answer<Hose, T> a;
    a.inflow = {w, -w};
    a.shaft = -line.lifting(value_of(w));
    return a;
  }
  template <class H>
  auto report(const H& here) const {
    return report_of(line.mass_flow(here.oil[0], here.oil[1]), here);
  }
  template <class H>
  std::array<double, 2> report_of(double mass_flow, const H& here) const {
    const double v = line.velocity(mass_flow, here.oil[0], here.oil[1]);
    return {v, line.reynolds(v, here.oil[0], here.oil[1])};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return line.half(); }
};

/// Steel tube.
struct Tube : RoomDefaults {
  static constexpr std::array<std::string_view, 3> wall_rules{"outer_diameter", "bore", "thick"};
  static constexpr About about{
      .kind = "tube",
      .sentence = "Steel tube: resists the flow, hardly gives.",
      .law =
          "drop = (f·length/bore + fittings)·density·v²/2, f by Churchill with roughness; give of the walls "
          "V·bore/(wall·E); drop = p_A − p_B − density·g·rise; with inertia length/area · dw/dt = p_A − p_B "
          "− "
          "density·g·rise − drop; working_pressure = wall_strength/safety by wall_rule",
      .source =
          "Darcy–Weisbach; S. W. Churchill, Chemical Engineering 84 (1977) 91; thin wall, E = 210 GPa; "
          "strength of "
          "the wall: Barlow, Lamé",
      .role = Role::line,
      .beside = "{bore} × {length}\nwall {wall}"};
  static constexpr std::array parameters{
      Parameter{.name = "bore",
                .quantity = Quantity::length,
                .low = 1 * si::mm,
                .high = 200 * si::mm,
                .meaning = "inner diameter",
                .series = Series::tube_bores},
      Parameter{.name = "wall",
                .quantity = Quantity::length,
                .fallback = 2 * si::mm,
                .low = 0.3 * si::mm,
                .high = 50 * si::mm,
                .meaning = "wall thickness"},
      line_length(),
      Parameter{.name = "roughness",
                .quantity = Quantity::length,
                .fallback = 1.5 * si::micrometre,
                .low = 0.0,
                .high = 1 * si::mm,
                .meaning = "height of the roughness of the bore (default: drawn tube)",
                .source = "common practice"},
      Parameter{.name = "wall_strength",
                .quantity = Quantity::pressure,
                .fallback = 3400 * si::bar,
                .low = 500 * si::bar,
                .high = 20000 * si::bar,
                .meaning = "tensile strength of the wall (default: cold-drawn steel tube, 340 MPa)",
                .source = "EN 10305-4, E235 (from memory)"},
      Parameter{.name = "safety",
                .fallback = 4.0,
                .low = 1.0,
                .high = 20.0,
                .meaning = "wall strength over the stress that is allowed in it"},
      Parameter{
          .name = "wall_rule",
          .fallback = 0.0,
          .low = 0.0,
          .high = 2.0,
          .meaning =
              "what the strength is reckoned on: the outer diameter (Barlow, most careful), the bore, or "
              "the thick wall of Lamé; follow the local code",
          .words = wall_rules},
      line_fittings(),
      line_rise(),
      line_segments(),
      line_inertia(),
      common::rated_pressure(),
  };
  static constexpr std::array faults{
      Fault{.name = "kinked or flattened",
            .sentence = "The bore is narrowed at one place: slow; two gauges show where.",
            .parameter = "fittings",
            .change = Fault::Change::plus,
            .slight = 20.0,
            .grave = 900.0,
            .comes = Comes::after_work},
      Fault{.name = "tank line blocked",
            .sentence =
                "Relief reads high, returns are slow, pilot checks stay shut and reduced branches climb, all "
                "together.",
            .parameter = "fittings",
            .change = Fault::Change::plus,
            .slight = 100.0,
            .grave = 1000.0},
  };
  static constexpr std::array rules{

      Rule{.name = "pipe carries no load",
           .sentence = "Tubes are never a support for parts or people.",
           .source = "university page on ISO 4413"},

  };
  static constexpr auto ports = line_ports;
  static constexpr std::array outputs{
      line_velocity(), line_reynolds(),
      Output{"wall_stress", Quantity::pressure,
             "stress around the bore at the higher end's pressure, by Lamé"},
      Output{"working_pressure", Quantity::pressure, "highest pressure that the wall allows"}};
  static constexpr std::array care{upkeep::tube_clamps, upkeep::joint_dry};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    using stroke::line;
    return join(line(-3, 0, 3, 0), line(-3, -0.5, -3, 0.5), line(3, -0.5, 3, 0.5));
  }();
  static constexpr std::array anchors{Anchor{-3, 0}, Anchor{3, 0}};
  static constexpr int oil_ports = 2;
  static constexpr double steel_modulus = 210e9;

  Bore line;
  TubeWall tube_wall;
  double allowed;  ///< working pressure of the wall, Pa

  Tube(const Values& v, const Oil& oil)
      : line(v["bore"], piece_of(v), v["roughness"], v["fittings"] / pieces(v),
             circle(v["bore"]) * piece_of(v) * v["bore"] / (v["wall"] * steel_modulus), oil,
             v["rise"] / pieces(v)),
        tube_wall{v["bore"], v["wall"]},
        allowed(tube_wall.pressure_at(v["wall_strength"] / v["safety"],
                                      static_cast<WallRule>(v.word("wall_rule")))) {}
  static std::vector<Mismatch> check(const Values& v) { return whole_pieces(v); }
  static int pieces(const Values& v) { return line_pieces(v); }
  static const Kind* as_built(const Values& v);
  static double piece_of(const Values& v) { return v["length"] / pieces(v); }

  template <class T>
  Answer<Tube, T> law(const Here<Tube, T>& here) const {
    const T w = line.mass_flow(here.oil[0], here.oil[1]);
    Answer<Tube, T> a;
    a.inflow = {w, -w};
    a.shaft = -line.lifting(value_of(w));
    return a;
  }
  template <class H>
  auto report(const H& here) const {
    return report_of(line.mass_flow(here.oil[0], here.oil[1]), here);
  }
  template <class H>
  std::array<double, 4> report_of(double mass_flow, const H& here) const {
    const double v = line.velocity(mass_flow, here.oil[0], here.oil[1]);
    const double highest = std::max({here.oil[0].pressure, here.oil[1].pressure, 0.0});
    return {v, line.reynolds(v, here.oil[0], here.oil[1]), tube_wall.hoop_stress(highest, tube_wall.bore),
            allowed};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return line.half(); }
};

/// A hose or tube whose oil has mass: the flow is a state of its own, and waves run at the speed that the
/// oil's and the walls' give allow.
template <class Line>
struct WithInertia : Line {
  static constexpr std::array state_list{
      State{"mass_flow", 1e-7, "kg/s of oil on its way from A to B", Quantity::none}};
  static constexpr int states = 1;

  double per_pressure;  ///< kg/s² per Pa
  double energy;        ///< J per (kg/s)²

  WithInertia(const Values& v, const Oil& oil)
      : Line(v, oil),
        per_pressure(circle(this->line.bore) / this->line.length),
        energy(0.5 / (per_pressure * oil.density_at_zero())) {}

  template <class T>
  Answer<WithInertia, T> law(const Here<WithInertia, T>& here) const {
    const auto& [a, b] = here.oil;
    const T& w = here.state[0];
    Answer<WithInertia, T> answer;
    answer.inflow = {w, -w};
    answer.rate[0] = per_pressure * (this->line.push(a, b) - this->line.friction_drop(w, a, b));
    answer.shaft = -this->line.lifting(value_of(w));
    answer.gained = 2.0 * energy * value_of(w) * value_of(answer.rate[0]);
    return answer;
  }
  template <class H>
  auto report(const H& here) const {
    return this->report_of(here.state[0], here);
  }
  template <class H>
  double stored(const H& here) const {
    return energy * here.state[0] * here.state[0];
  }
};

}  // namespace poise
