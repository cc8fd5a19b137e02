// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/drive_care.hpp"
#include "parts/pump_lines.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Reciprocating pump driven by compressed air, as a mean flow. Its flow and its pressure both go with the
/// air pressure; at ratio times the air pressure it stalls and holds.
struct AirDrivenPump : RoomDefaults {
  static constexpr About about{
      .kind = "air_driven_pump",
      .sentence =
          "Pump driven by compressed air: it slows as the pressure rises and stalls at ratio times the air "
          "pressure.",
      .law =
          "w_P = density_S·one_way(a·Q(Δp/a)), a = (air_pressure − air_line_drop)/stated_air_pressure; Q(p) "
          "= "
          "flow·(1 − p/(ratio·stated_air_pressure)), or delivery_curve, monotone cubic through its points "
          "and down "
          "to 0 at stall; shaft_power = delivery·Δp",
      .source =
          "stall: balance of the two pistons; that flow and pressure both go with the air pressure is common "
          "practice",
      .role = Role::source,
      .ramp = "air_time",
      .beside = "ratio {ratio}\n[{flow}|from {delivery_curve.first}]\nair {stated_air_pressure}"};
  static constexpr std::array parameters{
      Parameter{.name = "ratio",
                .low = 2.0,
                .high = 1000.0,
                .meaning = "air piston area over oil piston area",
                .source = "the pump's datasheet; 40 to 200 common practice"},
      Parameter{.name = "air_pressure",
                .quantity = Quantity::pressure,
                .fallback = 0.0,
                .low = 0.0,
                .high = 16 * si::bar,
                .meaning = "pressure at the air regulator; 0 is off",
                .set_by_steps = true},
      Parameter{.name = "air_time",
                .quantity = Quantity::time,
                .fallback = 0.5,
                .low = 0.0,
                .high = 60.0,
                .meaning = "time that a change of the air pressure takes"},
      Parameter{.name = "stated_air_pressure",
                .quantity = Quantity::pressure,
                .fallback = 6 * si::bar,
                .low = 1 * si::bar,
                .high = 16 * si::bar,
                .meaning = "air pressure for which the flow or the curve is stated",
                .source = "the pump's datasheet"},
      Parameter{.name = "flow",
                .quantity = Quantity::flow,
                .low = 1 * si::cm3_per_minute,
                .high = 100 * si::litre_per_minute,
                .meaning = "delivery without load at the stated air pressure",
                .source = "the pump's datasheet; 0.1 to 1.5 L/min common practice",
                .instead = "delivery_curve",
                .tolerance = common::delivery_of_pumps},
      pumps::delivery_curve(
          "instead of flow: points of outlet pressure and delivery at the stated air pressure"),
      Parameter{.name = "air_line_drop",
                .quantity = Quantity::pressure,
                .fallback = 0.0,
                .low = 0.0,
                .high = 10 * si::bar,
                .meaning = "pressure that is lost between the regulator and the pump"},
      pumps::wear(),
      common::rated_pressure(),
      common::port_volume(5 * si::cm3),
  };
  static constexpr std::array ports{pumps::suction, pumps::outlet};
  static constexpr std::array outputs{
      Output{"shaft_power", Quantity::power, "power that the air gives to the oil"},
      pumps::delivery,
      Output{"stall_pressure", Quantity::pressure, "outlet pressure at which it stops with this air"},
      Output{"air_use", Quantity::flow,
             "free air: delivery times ratio, at the air's pressure brought back to that of "
             "the room"},
  };
  static constexpr std::array faults{
      pumps::worn,
      Fault{.name = "air is low",
            .sentence = "regulator turned down, long thin air line or icing: lower top pressure, slower all "
                        "along; read "
                        "the air gauge while the pump runs",
            .parameter = "air_line_drop",
            .change = Fault::Change::plus,
            .slight = 0.5 * si::bar,
            .grave = 2.5 * si::bar},
  };
  static constexpr std::array care{upkeep::air_supply, upkeep::pump_test};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    using stroke::open;
    return join(pump_circle(0, 0), leads(0, 0), shaft(3, 5, 0), circle(8, 0, 3), open(8, -1.37, 1.5, 90),
                line(8, -4, 8, -3), open(8, -3.25, 0.75, 90));
  }();
  static constexpr std::array anchors{Anchor{0, -4}, Anchor{0, 4}};
  static constexpr int oil_ports = 2, inputs = 1;

  double ratio, stated, drop, slip, volume;
  MonotoneCurve curve;

  AirDrivenPump(const Values& v, const Oil&)
      : ratio(v["ratio"]),
        stated(v["stated_air_pressure"]),
        drop(v["air_line_drop"]),
        volume(v["port_volume"]),
        curve(curve_of(v)) {
    slip = curve.look(0.0).value * v["wear"] / (ratio * stated);
  }

  /// Delivery against outlet pressure at the stated air pressure, down to nothing at stall.
  static MonotoneCurve curve_of(const Values& v);
  static std::vector<Mismatch> check(const Values& v);
  static std::vector<CurveFit> curves(const Values& v, const Oil&) {
    if (!v.given("delivery_curve")) return {};
    CurveFit fit{"delivery_curve", {}};
    const MonotoneCurve curve = curve_of(v);
    for (const CurvePoint& p : v.points("delivery_curve"))
      fit.rows.push_back({p.x, p.y, curve.look(p.x).value});
    return {fit};
  }

  double air(const Input& input) const { return std::max(input.now() - drop, 0.0); }
  template <class T>
  T delivery(const T& rise, double air_pressure) const {
    constexpr double rounding = 0.02;
    const double a = air_pressure / stated;
    if (a <= 0.0) return T(0.0);
    return pumps::one_way(T(a * curve.at(T(rise * (1.0 / a))) - slip * positive(rise)),
                          rounding * a * curve.look(0.0).value);
  }
  template <class T>
  Answer<AirDrivenPump, T> law(const Here<AirDrivenPump, T>& here) const {
    const T rise = here.oil[1].pressure - here.oil[0].pressure;
    const T flow = delivery(rise, air(here.input[0]));
    Answer<AirDrivenPump, T> answer;
    answer.inflow[0] = here.oil[0].density * flow;
    answer.inflow[1] = -answer.inflow[0];
    answer.shaft = value_of(flow) * value_of(rise);
    return answer;
  }
  template <class H>
  std::array<double, 4> report(const H& here) const {
    const double rise = here.oil[1].pressure - here.oil[0].pressure, p = air(here.input[0]);
    const double flow = delivery(rise, p);
    return {flow * rise, flow, ratio * p, flow * ratio * (p + si::atmosphere) / si::atmosphere};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
