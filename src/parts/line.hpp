// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/pipe_flow.hpp"

namespace poise {

/// The oil's way through a round bore: Darcy–Weisbach with Churchill's friction factor and fittings; half of
/// its volume and of its walls' give belongs to the node at each end.
struct Bore {
  double bore, length, wall;  ///< m, m, m3/Pa of the whole line
  Viscosity viscosity;        ///< that of the upstream side counts
  PipeCurve curve;

  Bore(double bore_diameter, double line_length, double roughness, double fittings, double whole_wall,
       const Oil& oil)
      : bore(bore_diameter),
        length(line_length),
        wall(whole_wall),
        viscosity(oil.viscosity_law()),
        curve(roughness / bore_diameter, fittings * bore_diameter / line_length) {}

  template <class T>
  T mass_flow(const OilHere<T>& from, const OilHere<T>& to) const {
    const T drop = from.pressure - to.pressure;
    const T density = drop > 0.0 ? from.density : to.density;
    const T w = viscosity.constant()
                    ? through(magnitude(drop), density, viscosity.at_zero())
                    : thickened(magnitude(drop), density, drop > 0.0 ? from.pressure : to.pressure);
    return drop > 0.0 ? w : -w;
  }
  /// Pressure that friction takes of a mass flow, Pa, positive along it.
  template <class T>
  T friction_drop(const T& flow, const OilHere<T>& from, const OilHere<T>& to) const {
    const T density = flow > 0.0 ? from.density : to.density;
    const T drop = viscosity.constant()
                       ? drop_of(magnitude(flow), density, viscosity.at_zero())
                       : drop_of(magnitude(flow), density,
                                 viscosity_at(flow > 0.0 ? from.pressure : to.pressure, viscosity));
    return flow > 0.0 ? drop : -drop;
  }
  Space half() const { return {.volume = 0.5 * circle(bore) * length, .wall = 0.5 * wall}; }

 private:
  /// Mass flow of a pressure drop ≥ 0, kg/s.
  template <class T>
  T through(const T& drop, const T& density, double here) const {
    const double scale = 2.0 * bore * bore * bore / (length * here * here);
    const T s = drop * scale / density;
    const PipeCurve::Reynolds re = curve.reynolds(value_of(s));
    const double to_flow = here * 0.25 * std::numbers::pi * bore;
    return density * with_slope(s, re.value * to_flow, re.slope * to_flow);
  }
  /// The same with a viscosity that has slopes of its own; kept apart so that the usual way stays short.
  template <class T>
  [[gnu::cold, gnu::noinline]] T thickened(const T& drop, const T& density, const T& upstream) const {
    const T here = viscosity_at(upstream, viscosity);
    const T s = drop * (2.0 * bore * bore * bore / length) / (here * here * density);
    const PipeCurve::Reynolds re = curve.reynolds(value_of(s));
    return density * here * (0.25 * std::numbers::pi * bore) * with_slope(s, re.value, re.slope);
  }
  /// Pressure drop of a mass flow ≥ 0, Pa; the viscosity is a plain number or carries slopes.
  template <class T, class V>
  T drop_of(const T& flow, const T& density, const V& here) const {
    const T re = flow / (density * (here * 0.25 * std::numbers::pi * bore));
    const PipeCurve::Drop s = curve.drop_with_slope(value_of(re));
    return with_slope(re, s.value, s.slope) * density * (length * here * here / (2.0 * bore * bore * bore));
  }
};

constexpr Parameter line_length() {
  return {.name = "length",
          .quantity = Quantity::length,
          .low = 5 * si::mm,
          .high = 500.0,
          .meaning = "length of the line"};
}
constexpr Parameter line_fittings() {
  return {.name = "fittings",
          .quantity = Quantity::none,
          .fallback = 0.0,
          .low = 0.0,
          .high = 1000.0,
          .meaning = "sum of the loss coefficients K of bends and fittings, on the line's bore"};
}
constexpr Parameter line_segments() {
  return {.name = "segments",
          .fallback = 1.0,
          .low = 1.0,
          .high = 1000.0,
          .meaning =
              "pieces in a row that the line is worked out in: more show the pressure along it and, with "
              "inertia, waves"};
}
inline constexpr std::array<std::string_view, 2> no_yes{"no", "yes"};
constexpr Parameter line_inertia() {
  return {.name = "inertia",
          .fallback = 0.0,
          .low = 0.0,
          .high = 1.0,
          .meaning =
              "whether the mass of the oil in the line counts: a valve that shuts quickly then shows the "
              "pressure rise of the oil it stops",
          .words = no_yes};
}
inline constexpr std::array line_ports{
    Port{.name = "A", .meaning = "one end"},
    Port{.name = "B", .meaning = "other end"},
};

inline int line_pieces(const Values& v) { return static_cast<int>(std::lround(v["segments"])); }

/// Hose: a line whose walls give.
struct Hose : RoomDefaults {
  static constexpr About about{
      .kind = "hose",
      .sentence = "Hose: resists the flow and swells with pressure.",
      .law =
          "drop = (f·length/bore + fittings)·density·v²/2, f by Churchill at every "
          "Reynolds number; volume grows by "
          "softening·expansion·length·p; with inertia length/area · dw/dt = p_A − p_B − drop",
      .source = "Darcy–Weisbach; S. W. Churchill, Chemical Engineering 84 (1977) 91",
      .role = Role::line};
  static constexpr std::array parameters{
      Parameter{.name = "bore",
                .quantity = Quantity::length,
                .low = 1 * si::mm,
                .high = 100 * si::mm,
                .meaning = "inner diameter",
                .source = "the hose's datasheet"},
      line_length(),
      Parameter{.name = "expansion",
                .quantity = Quantity::expansion,
                .fallback = 0.01 * si::cm3 / si::bar,
                .low = 0.0,
                .high = 1 * si::cm3 / si::bar,
                .meaning = "swelling: volume per metre and pressure (default: 3.5 cm3/m at 350 bar)",
                .source = "the hose's datasheet; default common practice"},
      Parameter{.name = "expansion_curve",
                .quantity = Quantity::pressure,
                .low = 0.0,
                .high = 1500 * si::bar,
                .meaning =
                    "instead of expansion: points of pressure and growth of volume per metre, in cm3/m; a "
                    "straight line through zero is laid through them",
                .source = "the hose's datasheet",
                .optional = true,
                .against = Quantity::area},
      line_fittings(),
      line_segments(),
      line_inertia(),
      Parameter{.name = "softening",
                .fallback = 1.0,
                .low = 0.1,
                .high = 100.0,
                .meaning = "swelling over that of the datasheet: above 1 aged, swollen or the wrong hose"},
      common::rated_pressure(),
  };
  static constexpr std::array faults{
      Fault{.name = "soft or wrong hose",
            .sentence =
                "It swells more than it should: late, extra strokes of a hand pump, springs back on release.",
            .parameter = "softening",
            .change = Fault::Change::times,
            .slight = 3.0,
            .grave = 10.0},
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
      Rule{.name = "hose four to one",
           .sentence =
               "Burst pressure at least four times the highest pressure it sees, intensification included; "
               "lifting hoses for 700 bar go by their own standard. Local codes decide.",
           .source = "Code of Virginia 45.2-802; hose selection notes"},
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
      Rule{.name = "hose softness",
           .sentence =
               "A long hose before small clamps takes more oil than they do: count its swelling in strokes "
               "and time."},
  };
  static constexpr auto ports = line_ports;
  static constexpr int oil_ports = 2;

  Bore line;

  Hose(const Values& v, const Oil& oil)
      : line(v["bore"], piece_of(v), 0.0, v["fittings"] / pieces(v), swelling(v) * piece_of(v), oil) {}
  /// Volume per metre and pressure, m3/(m·Pa): as given, or by least squares through zero and the curve.
  static double swelling(const Values& v);
  static std::vector<CurveFit> curves(const Values& v, const Oil&);
  static int pieces(const Values& v) { return line_pieces(v); }
  static const Kind* as_built(const Values& v);
  static double piece_of(const Values& v) { return v["length"] / pieces(v); }

  template <class T>
  Answer<Hose, T> law(const Here<Hose, T>& here) const {
    const T w = line.mass_flow(here.oil[0], here.oil[1]);
    Answer<Hose, T> a;
    a.inflow = {w, -w};
    return a;
  }
  Space space(int) const { return line.half(); }
};

/// Steel tube.
struct Tube : RoomDefaults {
  static constexpr About about{
      .kind = "tube",
      .sentence = "Steel tube: resists the flow, hardly gives.",
      .law =
          "drop = (f·length/bore + fittings)·density·v²/2, f by Churchill with roughness; give of the walls "
          "V·bore/(wall·E); with inertia length/area · dw/dt = p_A − p_B − drop",
      .source = "Darcy–Weisbach; S. W. Churchill, Chemical Engineering 84 (1977) 91; thin wall, E = 210 GPa",
      .role = Role::line};
  static constexpr std::array parameters{
      Parameter{.name = "bore",
                .quantity = Quantity::length,
                .low = 1 * si::mm,
                .high = 200 * si::mm,
                .meaning = "inner diameter"},
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
      line_fittings(),
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
            .grave = 900.0},
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
      Rule{.name = "tube wall",
           .sentence = "Burst pressure of the wall at least four times the working pressure, less for bends.",
           .source = "tube sizing notes (design factor 4)"},
      Rule{.name = "line velocity",
           .sentence =
               "Suction 0.5 to 1.5 m/s, return 2 to 4 m/s, pressure 3 to 10 m/s; suction and return are the "
               "ones that go wrong.",
           .source = "three notes on line velocity"},
      Rule{.name = "tank line too small",
           .sentence =
               "Its drop with cold oil, a dirty filter and the amplified return flow stays below 3 to 5 bar "
               "and below every return spring."},
      Rule{.name = "pipe carries no load",
           .sentence = "Tubes are never a support for parts or people.",
           .source = "university page on ISO 4413"},
      Rule{.name = "valve shut shock",
           .sentence = "A valve that shuts faster than the wave comes back raises the pressure by some 11 "
                       "bar per m/s."},
  };
  static constexpr auto ports = line_ports;
  static constexpr int oil_ports = 2;
  static constexpr double steel_modulus = 210e9;

  Bore line;

  Tube(const Values& v, const Oil& oil)
      : line(v["bore"], piece_of(v), v["roughness"], v["fittings"] / pieces(v),
             circle(v["bore"]) * piece_of(v) * v["bore"] / (v["wall"] * steel_modulus), oil) {}
  static int pieces(const Values& v) { return line_pieces(v); }
  static const Kind* as_built(const Values& v);
  static double piece_of(const Values& v) { return v["length"] / pieces(v); }

  template <class T>
  Answer<Tube, T> law(const Here<Tube, T>& here) const {
    const T w = line.mass_flow(here.oil[0], here.oil[1]);
    Answer<Tube, T> a;
    a.inflow = {w, -w};
    return a;
  }
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
    answer.rate[0] = per_pressure * (a.pressure - b.pressure - this->line.friction_drop(w, a, b));
    answer.gained = 2.0 * energy * value_of(w) * value_of(answer.rate[0]);
    return answer;
  }
  template <class H>
  double stored(const H& here) const {
    return energy * here.state[0] * here.state[0];
  }
};

}  // namespace poise
