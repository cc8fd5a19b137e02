// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/drive_care.hpp"
#include "parts/monotone_curve.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Reciprocating intensifier as a mean flow: oil runs straight from A to B while B is below A; above that the
/// pistons cycle until B stands at ratio times A, and send the oil that drives them to R.
struct CyclingIntensifier : RoomDefaults {
  static constexpr About about{
      .kind = "cycling_intensifier",
      .sentence =
          "Reciprocating intensifier: fills through its check, then pumps itself up to ratio times its "
          "supply.",
      .law =
          "check A→B as a check valve, x its opening; cycling: Q_B = (1 − x)·Q(e), e = ratio·p_A − (ratio − "
          "1)·p_R − "
          "p_B ≥ 0, from A ratio·Q_B, to R (ratio − 1)·Q_B, all at the density of A; Q(e): drop = a·Q² + b·Q "
          "through "
          "(high_flow, high_drop), or delivery_curve against e, monotone cubic and level beyond its last "
          "point",
      .source = "balance of work over one cycle; the flow law of the cycling is that of a restriction",
      .beside = "ratio {ratio}"};
  static constexpr std::array parameters{
      Parameter{.name = "ratio",
                .low = 1.05,
                .high = 30.0,
                .meaning = "pressure at B over pressure at A at standstill, R without pressure",
                .source = "the intensifier's datasheet; 1.5 to 20 common practice"},
      Parameter{.name = "high_flow",
                .quantity = Quantity::flow,
                .low = 1 * si::cm3_per_minute,
                .high = 100 * si::litre_per_minute,
                .meaning = "delivery at B with the pistons cycling and high_drop to spare",
                .source = "the intensifier's datasheet",
                .instead = "delivery_curve",
                .tolerance = common::delivery_of_pumps},
      Parameter{.name = "high_drop",
                .quantity = Quantity::pressure,
                .fallback = 100 * si::bar,
                .low = 1 * si::bar,
                .high = 1500 * si::bar,
                .meaning = "how far B is below standstill while high_flow is delivered"},
      Parameter{
          .name = "delivery_curve",
          .quantity = Quantity::pressure,
          .low = 0.0,
          .high = 1500 * si::bar,
          .meaning =
              "instead of high_flow: points of pressure at B and delivery, for curve_pressure at A and none "
              "at R",
          .source = "the intensifier's datasheet",
          .optional = true,
          .against = Quantity::flow,
          .tolerance = common::delivery_of_pumps},
      Parameter{.name = "curve_pressure",
                .quantity = Quantity::pressure,
                .low = 1 * si::bar,
                .high = 700 * si::bar,
                .meaning = "pressure at A for which the delivery curve is stated",
                .source = "the intensifier's datasheet",
                .optional = true},
      common::cracking_pressure(0.5 * si::bar),
      common::rated_flow_or_curve(),
      common::pressure_drop(),
      common::drop_curve(),
      common::measured_viscosity(),
      common::leakage(
          "flow back from B to R past seals and seats at the rated pressure (350 bar if none is given)"),
      common::rated_pressure(),
      common::port_volume(5 * si::cm3),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "supply"},
      Port{.name = "B", .meaning = "high-pressure side"},
      Port{.name = "R", .meaning = "return of the driving oil, to tank"},
  };
  static constexpr std::array outputs{
      Output{"end_pressure", Quantity::pressure, "pressure at B at which it stands still with this supply"},
      Output{"high_flow", Quantity::flow, "delivery of the cycling pistons, at the supply's density"},
  };
  static constexpr std::array faults{
      Fault{.name = "high side leaks",
            .sentence = "it goes on cycling at the end and gets warm; B stands below ratio times A",
            .parameter = "leakage",
            .change = Fault::Change::becomes,
            .slight = 5 * si::cm3_per_minute,
            .grave = 500 * si::cm3_per_minute},
      Fault{.name = "cycles slowly",
            .sentence = "its changeover valve is dirty: long time from supply pressure to high pressure",
            .parameter = "high_flow",
            .slight = 0.8,
            .grave = 0.2},
  };
  static constexpr std::array rules{

      Rule{.name = "return line free",
           .sentence =
               "Every bar in R takes (ratio − 1) bar from B, and R carries (ratio − 1) times the flow at B."},
  };
  static constexpr std::array care{upkeep::intensifier_ends, upkeep::return_free};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(box(0, 0, 6, 4), box(6, 1, 11, 3), box(2, 0, 3, 4), box(3, 1.25, 8, 2.75),
                filled(1.5, 2, 1, 0), filled(10.75, 2, 1, 0), line(-2, 2, 0, 2), line(11, 2, 13, 2),
                line(4, -2, 4, 0), path(-1, 2, -1, 5.5, 4.25, 5.5), path(5.15, 6.4, 4.25, 5.5, 5.15, 4.6),
                circle(4.96, 5.5, 0.5), path(5.46, 5.5, 12, 5.5, 12, 2), dot(-1, 2), dot(12, 2),
                arrow(5.75, -0.5, 8.5, -0.5), arrow(8.25, -1.25, 5.5, -1.25), chain(box(-2, -2, 13, 7)));
  }();
  static constexpr std::array anchors{Anchor{-2, 2}, Anchor{13, 2}, Anchor{4, -2}};
  static constexpr int oil_ports = 3;

  double ratio, volume;
  common::CheckOpening opening;
  Restriction check_open, cycling_open;
  MonotoneCurve curve;
  Leak leak;

  CyclingIntensifier(const Values& v, const Oil& oil)
      : ratio(v["ratio"]),
        volume(v["port_volume"]),
        opening(v["cracking_pressure"]),
        check_open(common::drop_of(v, oil)),
        curve(curve_of(v)),
        leak(Leak::at(v["leakage"], common::leakage_pressure(v))) {
    if (curve.empty()) cycling_open = Restriction::through(v["high_flow"], v["high_drop"]);
  }

  /// Delivery against the pressure to spare, from none; empty where no curve is given.
  static MonotoneCurve curve_of(const Values& v);
  static std::vector<Mismatch> check(const Values& v);
  static std::vector<CurveFit> curves(const Values& v, const Oil& oil);

  /// Delivery of the pistons with a pressure to spare.
  template <class T>
  T cycling(const T& spare) const {
    if (spare <= 0.0) return T(0.0);
    return curve.empty() ? T(cycling_open.flow(spare, 1.0)) : curve.at(spare);
  }
  template <class T>
  T high_flow(const Here<CyclingIntensifier, T>& here) const {
    const auto& [a, b, r] = here.oil;
    // In this form it is nothing to the last digit where all three are equal.
    const T spare = ratio * (a.pressure - r.pressure) + (r.pressure - b.pressure);
    return (1.0 - opening.share(T(a.pressure - b.pressure))) * cycling(spare);
  }
  template <class T>
  Answer<CyclingIntensifier, T> law(const Here<CyclingIntensifier, T>& here) const {
    const auto& [a, b, r] = here.oil;
    const T drop = a.pressure - b.pressure;
    const T free = mass_flow(check_open.flow(drop, opening.share(drop)), a, b);
    const T high = a.density * high_flow(here);
    const T back = mass_flow(leak.flow(T(b.pressure - r.pressure)), b, r);
    Answer<CyclingIntensifier, T> answer;
    answer.inflow = {free + ratio * high, back - free - high, (1.0 - ratio) * high - back};
    return answer;
  }
  template <class H>
  std::array<double, 2> report(const H& here) const {
    return {ratio * here.oil[0].pressure - (ratio - 1.0) * here.oil[2].pressure, high_flow(here)};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
