// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/drive_care.hpp"
#include "parts/pump_lines.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Fixed-displacement pump on an electric motor: w = ρ_suction·(n·D − k·Δp), with ρ_outlet while that is
/// negative. k from the volumetric efficiency at the rated pressure, or the slip from a curve of the
/// datasheet. Shaft power n·D·Δp over the mechanical efficiency.
struct Pump : RoomDefaults {
  static constexpr About about{
      .kind = "pump",
      .sentence =
          "Fixed-displacement pump driven by an electric motor: a flow that hardly minds the pressure.",
      .law =
          "w_P = density_S · (flow − k·(p_P − p_S)), k = flow·(1 − volumetric_efficiency + "
          "wear)/rated_pressure; with "
          "delivery_curve Q(p): w_P = density_S · Q(p_P − p_S), monotone cubic through its points, straight "
          "on "
          "beyond them; shaft power = flow·(p_P − p_S)/mechanical_efficiency",
      .source = "common form, e.g. Merritt, Hydraulic Control Systems (from memory)",
      .role = Role::source,
      .ramp = "start_time",
      .beside = "[{flow}|{delivery_curve.first}]\n[{displacement}, {speed}]\n[{motor_power}]"};
  static constexpr std::array parameters{
      pumps::flow(),
      pumps::displacement(),
      pumps::speed(),
      pumps::volumetric_efficiency("share of the no-load flow still delivered at the rated pressure"),
      pumps::delivery_curve(
          "instead of flow and volumetric_efficiency: points of outlet pressure and delivery"),
      pumps::wear(),
      pumps::mechanical_efficiency(1.0),
      pumps::rated_pressure(),
      pumps::running(),
      pumps::start_time(),
      pumps::motor_power(),
      common::port_volume(5 * si::cm3),
  };
  static constexpr std::array ports{pumps::suction, pumps::outlet};
  static constexpr std::array outputs{pumps::shaft_power, pumps::delivery, pumps::motor_load};
  static constexpr std::array faults{
      pumps::worn,
      Fault{.name = "speed is low",
            .sentence = "low voltage or a wrong motor: every motion takes longer in the same ratio",
            .parameter = "speed",
            .slight = 0.95,
            .grave = 0.8},
      Fault{
          .name = "flow is low",
          .sentence =
              "slow motor, slipping coupling or starved suction: every motion takes longer in the same ratio",
          .parameter = "flow",
          .slight = 0.95,
          .grave = 0.6},
      Fault{.name = "pump runs heavily",
            .sentence = "bearings or pistons rub: the motor is loaded more and the oil gets warmer",
            .parameter = "mechanical_efficiency",
            .slight = 0.95,
            .grave = 0.75},
  };
  static constexpr std::array care{upkeep::pump_noise, upkeep::pump_test};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(motor_pump());
  }();
  static constexpr std::array anchors{Anchor{0, -4}, Anchor{0, 4}};
  static constexpr int oil_ports = 2, inputs = 1;

  double full_flow, slip, volume, mechanical, load;
  MonotoneCurve curve;

  Pump(const Values& v, const Oil&)
      : full_flow(pumps::no_load_flow(v)),
        slip(full_flow * (1.0 - v["volumetric_efficiency"] + v["wear"]) / v["rated_pressure"]),
        volume(v["port_volume"]),
        mechanical(v["mechanical_efficiency"]),
        load(pumps::load_share(v)),
        curve(pumps::curve_of(v)) {
    if (curve.empty()) return;
    full_flow = curve.look(0.0).value;
    slip = full_flow * v["wear"] / v["rated_pressure"];  // the curve has the slip of a sound pump in it
  }

  static std::vector<Mismatch> check(const Values& v) { return pumps::check_flow(v, true); }
  static std::vector<CurveFit> curves(const Values& v, const Oil&) { return pumps::curves_of(v); }

  template <class T>
  T delivery(const Here<Pump, T>& here) const {
    const T rise = here.oil[1].pressure - here.oil[0].pressure;
    const T straight = full_flow * here.input[0].now() - slip * rise;
    if (curve.empty()) [[likely]]
      return straight;
    return straight + bent(rise);
  }
  template <class H>
  double power(const H& here) const {
    const double rise = value_of(here.oil[1].pressure) - value_of(here.oil[0].pressure);
    return pumps::at_shaft(full_flow * here.input[0].now() * rise, mechanical);
  }
  template <class T>
  Answer<Pump, T> law(const Here<Pump, T>& here) const {
    Answer<Pump, T> a;
    a.inflow[0] = mass_flow(delivery(here), here.oil[0], here.oil[1]);
    a.inflow[1] = -a.inflow[0];
    a.shaft = power(here);
    return a;
  }
  template <class H>
  std::array<double, 3> report(const H& here) const {
    return {power(here), delivery(here), power(here) * load};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }

 private:
  /// What a curve adds to the straight law (less the slip of a sound pump); kept apart so that the usual way
  /// stays short.
  template <class T>
  [[gnu::cold, gnu::noinline]] T bent(const T& rise) const {
    return curve.at(rise) - full_flow;
  }
};

}  // namespace poise
