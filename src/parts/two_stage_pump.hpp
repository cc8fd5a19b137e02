// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/adjust.hpp"
#include "parts/drive_care.hpp"
#include "parts/pump_lines.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

/// Two pumps on one motor: both deliver for the fast approach, then the low-pressure stage is unloaded to
/// suction and the high-pressure stage goes on alone. Each has its own outlet check: nothing runs back
/// through it.
struct TwoStagePump : RoomDefaults {
  static constexpr About about{
      .kind = "two_stage_pump",
      .sentence =
          "Two-stage pump: much oil at low pressure, little at high pressure, changing over by itself.",
      .law =
          "w_P = density_S·(one_way(Q_H − k_H·Δp) + x·one_way(Q_L − k_L·Δp)), Q_H = high_pressure_flow, Q_L "
          "= "
          "low_pressure_flow − high_pressure_flow, x falls from 1 to 0 over unloading_band about "
          "unloading_pressure; "
          "shaft power = (Q_H·Δp + Q_L·(x·Δp + (1 − x)·idling_pressure))/mechanical_efficiency; with "
          "delivery_curve "
          "Q(p): w_P = density_S·Q(Δp), monotone cubic, shaft power = Q(Δp)·Δp/(volumetric·mechanical "
          "efficiency)",
      .source = "two fixed pumps in parallel, the larger with an unloading valve; common practice",
      .role = Role::source,
      .ramp = "start_time",
      .beside =
          "[{low_pressure_flow}/{high_pressure_flow}|from {delivery_curve.first}]\nover at "
          "{unloading_pressure}\n[{motor_power}]"};
  static constexpr std::array parameters{
      Parameter{.name = "low_pressure_flow",
                .quantity = Quantity::flow,
                .low = 10 * si::cm3_per_minute,
                .high = 500 * si::litre_per_minute,
                .meaning = "delivery of both stages together without load",
                .source = "the pump's datasheet; 2 to 12 L/min common practice",
                .instead = "delivery_curve",
                .tolerance = 0.03},
      Parameter{.name = "high_pressure_flow",
                .quantity = Quantity::flow,
                .low = 1 * si::cm3_per_minute,
                .high = 100 * si::litre_per_minute,
                .meaning = "delivery of the high-pressure stage without load",
                .source = "the pump's datasheet; 0.2 to 2 L/min common practice",
                .instead = "delivery_curve",
                .tolerance = 0.03},
      pumps::delivery_curve("instead of the flows: points of outlet pressure and delivery of the whole pump"),
      Parameter{.name = "unloading_pressure",
                .quantity = Quantity::pressure,
                .fallback = 70 * si::bar,
                .low = 2 * si::bar,
                .high = 350 * si::bar,
                .meaning =
                    "outlet pressure at which the low-pressure stage is half unloaded; not counted with a "
                    "delivery_curve",
                .source = "the pump's datasheet; 15 to 100 bar common practice",
                .adjusted = true,
                .tolerance = 0.05},
      Parameter{.name = "unloading_band",
                .quantity = Quantity::share,
                .fallback = 0.1,
                .low = 0.01,
                .high = 0.6,
                .meaning = "rise of pressure from the beginning of unloading to its end, as a share of "
                           "unloading_pressure"},
      Parameter{.name = "idling_pressure",
                .quantity = Quantity::pressure,
                .fallback = 3 * si::bar,
                .low = 0.0,
                .high = 50 * si::bar,
                .meaning = "pressure that the unloaded stage needs to send its oil back to suction"},
      pumps::volumetric_efficiency(
          "share of its flow that the high-pressure stage still delivers at the rated "
          "pressure",
          0.9),
      Parameter{
          .name = "low_stage_efficiency",
          .quantity = Quantity::share,
          .fallback = 0.93,
          .low = 0.3,
          .high = 1.0,
          .meaning = "share of its flow that the low-pressure stage still delivers at unloading_pressure",
          .tolerance = common::loss_up_to_twice},
      pumps::wear(),
      pumps::mechanical_efficiency(),
      pumps::rated_pressure(),
      pumps::running(),
      pumps::start_time(),
      pumps::motor_power(),
      common::port_volume(5 * si::cm3),
  };
  static constexpr std::array ports{pumps::suction, pumps::outlet};
  static constexpr std::array outputs{pumps::shaft_power, pumps::delivery, pumps::motor_load};
  static constexpr std::array happenings{Happening{"unloads its low-pressure stage"}};
  static constexpr std::array faults{
      pumps::worn,
      Fault{.name = "low stage does not join",
            .sentence =
                "its check sticks, its coupling slips or its unloading valve stands open: slow approach, as "
                "usual under load",
            .parameter = "low_pressure_flow",
            .slight = 0.7,
            .grave = 0.2,
            .comes = Comes::suddenly},
      Fault{.name = "unloads early",
            .sentence = "the unloading spring is weak: slow above a low pressure, which is still reached",
            .parameter = "unloading_pressure",
            .slight = 0.9,
            .grave = 0.5},
      Fault{.name = "unloading valve stuck shut",
            .sentence =
                "both stages work against the full pressure: the motor labours or trips, the whole flow goes "
                "over the relief and heats the oil",
            .parameter = "unloading_pressure",
            .slight = 2.0,
            .grave = 5.0,
            .comes = Comes::suddenly},
  };
  static constexpr std::array adjusting{adjust::change_over};
  static constexpr std::array care{upkeep::pump_noise, upkeep::pump_test, upkeep::unloads};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(pump_circle(0, 0), pump_circle(7, 0), shaft(3, 4, 0), shaft(10, 11, 0),
                pieces::electric_motor(14, 0), path(0, -3, 0, -4, 18, -4, 18, 5, 12, 5, 12, 6),
                line(7, -4, 7, -3), line(0, -5, 0, -4), dot(0, -4), dot(7, -4), line(7, 3, 7, 4),
                check_up(7, 6), path(7, 8, 7, 9, 0, 9), line(0, 3, 0, 12), dot(7, 4), dot(0, 9), dot(7, 9),
                chain(box(-4, -5, 19, 12)), box(10, 6, 14, 10), path(7, 4, 9, 4, 9, 11, 12, 11, 12, 10),
                arrow(11, 10, 11, 6), adjustable_spring(14, 8), pilot(7, 9, 8, 9, 8, 8, 10, 8));
  }();
  static constexpr std::array anchors{Anchor{0, -5}, Anchor{0, 12}};
  static constexpr int oil_ports = 2, inputs = 1;

  double high = 0.0, low = 0.0, slip_high, slip_low, change_over, band, idling, efficiency, mechanical, load,
         volume;
  MonotoneCurve curve;

  TwoStagePump(const Values& v, const Oil&)
      : change_over(v["unloading_pressure"]),
        band(v["unloading_band"] * change_over),
        idling(v["idling_pressure"]),
        efficiency(v["volumetric_efficiency"]),
        mechanical(v["mechanical_efficiency"]),
        load(pumps::load_share(v)),
        volume(v["port_volume"]),
        curve(pumps::curve_of(v)) {
    if (curve.empty()) {
      high = v["high_pressure_flow"];
      low = std::max(v["low_pressure_flow"] - high, 0.0);
    } else {
      high = curve.look(0.0).value;
    }
    const double loss =
        curve.empty() ? 1.0 - efficiency : 0.0;  // the curve has the slip of a sound pump in it
    slip_high = high * (loss + v["wear"]) / v["rated_pressure"];
    slip_low = low * (1.0 - v["low_stage_efficiency"] + v["wear"]) / change_over;
  }

  static std::vector<Mismatch> check(const Values& v);
  static std::vector<CurveFit> curves(const Values& v, const Oil&) { return pumps::curves_of(v); }

  /// Share of the low-pressure stage that goes to the outlet.
  template <class T>
  T joined(const T& rise) const {
    return 1.0 - share_of_band(T(rise - change_over + 0.5 * band), band);
  }
  template <class T>
  T delivery(const T& rise, double turning) const {
    constexpr double rounding = 0.02;
    if (!curve.empty()) {
      return pumps::one_way(T(turning * curve.at(rise) - slip_high * positive(rise)),
                            rounding * high * turning);
    }
    return pumps::one_way(T(turning * high - slip_high * rise), rounding * high * turning) +
           joined(rise) * pumps::one_way(T(turning * low - slip_low * rise), rounding * low * turning);
  }
  double power(double rise, double turning) const {
    if (!curve.empty()) {
      return pumps::at_shaft(turning * positive(curve.look(rise).value) * rise, mechanical * efficiency);
    }
    const double x = joined(rise);
    return pumps::at_shaft(turning * (high * rise + low * (x * rise + (1.0 - x) * idling)), mechanical);
  }

  template <class T>
  Answer<TwoStagePump, T> law(const Here<TwoStagePump, T>& here) const {
    const T rise = here.oil[1].pressure - here.oil[0].pressure;
    const double turning = here.input[0].now();
    Answer<TwoStagePump, T> a;
    a.inflow[0] = here.oil[0].density * delivery(rise, turning);
    a.inflow[1] = -a.inflow[0];
    a.shaft = power(value_of(rise), turning);
    return a;
  }
  template <class H>
  std::array<double, 3> report(const H& here) const {
    const double rise = here.oil[1].pressure - here.oil[0].pressure, turning = here.input[0].now();
    return {power(rise, turning), delivery(rise, turning), power(rise, turning) * load};
  }
  template <class H>
  std::array<double, 1> passing(const H& here) const {
    if (!curve.empty() || here.input[0].now() < 0.5) return {-1.0};
    // Armed anew (see run.cpp) only 1 % below, so that a wavering pressure does not fill the list of events.
    return {1e-4 * ((here.oil[1].pressure - here.oil[0].pressure) / change_over - 1.0)};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
