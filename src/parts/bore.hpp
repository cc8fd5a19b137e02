// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/pipe_flow.hpp"

namespace poise {

/// The oil's way through a round bore: Darcy–Weisbach with Churchill's friction factor and fittings, and the
/// weight of the oil where B lies higher than A; half of its volume and of its walls' give belongs to the
/// node at each end.
struct Bore {
  double bore, length, rise, wall;  ///< m, m, m, m3/Pa of the whole line
  Viscosity viscosity;              ///< that of the upstream side counts
  PipeCurve curve;

  Bore(double bore_diameter, double line_length, double roughness, double fittings, double whole_wall,
       const Oil& oil, double rise_to_b = 0.0)
      : bore(bore_diameter),
        length(line_length),
        rise(rise_to_b),
        wall(whole_wall),
        viscosity(oil.viscosity_law()),
        curve(roughness / bore_diameter, fittings * bore_diameter / line_length) {}

  /// What pushes the oil from A to B: the pressures and its own weight.
  template <class T>
  T push(const OilHere<T>& a, const OilHere<T>& b) const {
    if (rise == 0.0) return a.pressure - b.pressure;
    return a.pressure - b.pressure - a.density * (si::gravity * rise);
  }
  /// Power that the oil takes out as it is lifted, W.
  double lifting(double mass_flow) const { return mass_flow * si::gravity * rise; }

  template <class T>
  T mass_flow(const OilHere<T>& from, const OilHere<T>& to) const {
    const T drop = push(from, to);
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
  /// Mean speed from A to B, m/s, of a mass flow, kg/s.
  double velocity(double mass_flow, const OilHere<double>& a, const OilHere<double>& b) const {
    return mass_flow / ((mass_flow > 0.0 ? a : b).density * circle(bore));
  }
  double reynolds(double velocity, const OilHere<double>& a, const OilHere<double>& b) const {
    return std::abs(velocity) * bore / viscosity.at((velocity > 0.0 ? a : b).pressure).value;
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
constexpr Parameter line_rise() {
  return {.name = "rise",
          .quantity = Quantity::length,
          .fallback = 0.0,
          .low = -200.0,
          .high = 200.0,
          .meaning = "how much higher B lies than A: a suction line, a lifting table"};
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

constexpr Output line_velocity() {
  return {"velocity", Quantity::speed, "mean speed of the oil, positive from A to B"};
}
constexpr Output line_reynolds() {
  return {"reynolds", Quantity::none, "Reynolds number: below about 2000 the flow is laminar"};
}
/// Refuses a broken number of pieces.
std::vector<Mismatch> whole_pieces(const Values& v);
inline int line_pieces(const Values& v) { return static_cast<int>(std::lround(v["segments"])); }

}  // namespace poise
