// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/adjust.hpp"
#include "parts/drive_care.hpp"
#include "parts/pump_lines.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Variable-displacement pump with a pressure compensator, and with a power limit if one is given. The stroke
/// s (share of the full displacement) follows what the pressure allows with a first-order lag.
struct VariablePump : RoomDefaults {
  static constexpr About about{
      .kind = "variable_pump",
      .sentence = "Pressure-compensated pump: full flow up to its setting, there only as much as is taken.",
      .law =
          "response_time · ds/dt = min(1 − clamp((Δp − setting + band)/band, 0, 1), power_limit/(flow·Δp)) − "
          "s; "
          "drawn at S: density_S·s·flow; case leak P→L: density_P·k·(p_P − p_L), k = flow·(1 − "
          "volumetric_efficiency + wear)/rated_pressure; shaft power = s·flow·Δp/mechanical_efficiency",
      .source = "proportional compensator with a lag, e.g. Merritt, Hydraulic Control Systems (from memory)",
      .role = Role::source,
      .ramp = "start_time",
      .beside = "[{flow}|{displacement}, {speed}]\nto {setting}\n[{motor_power}]"};
  static constexpr std::array parameters{
      pumps::flow(),
      pumps::displacement(),
      pumps::speed(),
      Parameter{
          .name = "setting",
          .quantity = Quantity::pressure,
          .low = 5 * si::bar,
          .high = 1000 * si::bar,
          .meaning =
              "pressure at which the compensator has taken the displacement to zero, as read dead-headed",
          .adjusted = true,
          .tolerance = 0.03},
      Parameter{.name = "band",
                .quantity = Quantity::pressure,
                .fallback = 10 * si::bar,
                .low = 0.5 * si::bar,
                .high = 100 * si::bar,
                .meaning = "rise of pressure from full displacement to none, below the setting",
                .source = "the pump's datasheet; default common practice"},
      Parameter{.name = "power_limit",
                .quantity = Quantity::power,
                .low = 50.0,
                .high = 1e6,
                .meaning =
                    "constant-power control: displacement is kept so small that pressure times flow does not "
                    "pass it; left out, there is none",
                .source = "the pump's datasheet",
                .optional = true},
      Parameter{.name = "response_time",
                .quantity = Quantity::time,
                .fallback = 50 * si::ms,
                .low = 1 * si::ms,
                .high = 2.0,
                .meaning = "time constant with which the displacement follows",
                .source = "the pump's datasheet; 30 to 100 ms common practice"},
      pumps::volumetric_efficiency("share of the no-load flow not lost to the case at the rated pressure",
                                   0.95),
      pumps::wear(),
      pumps::mechanical_efficiency(),
      pumps::rated_pressure(),
      pumps::running(),
      pumps::start_time(),
      pumps::motor_power(),
      common::port_volume(10 * si::cm3),
  };
  static constexpr std::array ports{
      pumps::suction, pumps::outlet,
      Port{.name = "L", .meaning = "case drain, a line of its own to tank", .pilot = true}};
  static constexpr std::array state_list{
      State{.name = "stroke", .meaning = "displacement as a share of the full displacement"}};
  static constexpr std::array outputs{pumps::shaft_power, pumps::delivery, pumps::motor_load,
                                      Output{"case_flow", Quantity::flow, "leakage to the case drain"}};
  static constexpr std::array faults{
      pumps::worn,
      Fault{.name = "compensator drifts down",
            .sentence =
                "its spring has tired or its adjuster has come loose: the pump gives up its flow at a lower "
                "pressure",
            .parameter = "setting",
            .slight = 0.95,
            .grave = 0.6},
      Fault{.name = "compensator sticks",
            .sentence = "dirt slows it: pressure overshoots as motions stop and dips as they start",
            .parameter = "response_time",
            .slight = 2.0,
            .grave = 10.0,
            .comes = Comes::suddenly},
      Fault{.name = "power limit is low",
            .sentence = "turned down or drifted: slow under load, as usual without",
            .parameter = "power_limit",
            .slight = 0.9,
            .grave = 0.5},
  };
  static constexpr std::array rules{

      Rule{.name = "compensator overshoot",
           .sentence =
               "Until it has stroked back its flow goes into the line: give the line volume, and look at the "
               "peak when a motion stops at once."}};
  static constexpr std::array adjusting{adjust::compensator};
  static constexpr std::array care{upkeep::pump_noise, upkeep::pump_test, upkeep::case_drain};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(motor_pump(), adjustable(0, 0, 3.5), pilot(0, 3.5, -5, 3.5, -5, -2), box(-6, -4, -4, -2),
                filled(-5, -3, 1, -90), spring(-8, -3, -6, -3), line(-8, -4, -8, -2),
                arrow(-7.75, -4, -6.25, -2), line(-4, -3, -3, -3), pilot(2, -2.25, 2, -4));
  }();
  static constexpr std::array anchors{Anchor{0, -4}, Anchor{0, 4}, Anchor{2, -4}};
  static constexpr int oil_ports = 3, states = 1, inputs = 1;

  double full, setting, band, power_limit, response, slip, mechanical, load, volume;

  VariablePump(const Values& v, const Oil&)
      : full(pumps::no_load_flow(v)),
        setting(v["setting"]),
        band(v["band"]),
        power_limit(v.given("power_limit") ? v["power_limit"] : 0.0),
        response(v["response_time"]),
        slip(full * (1.0 - v["volumetric_efficiency"] + v["wear"]) / v["rated_pressure"]),
        mechanical(v["mechanical_efficiency"]),
        load(pumps::load_share(v)),
        volume(v["port_volume"]) {}

  static std::vector<Mismatch> check(const Values& v);

  /// Stroke that the pressure allows; the corner between the two controls is rounded, downwards by at most
  /// half a percent of full stroke.
  template <class T>
  T allowed(const T& rise) const {
    constexpr double rounding = 0.01;
    const T by_pressure = 1.0 - share_of_band(T(rise - setting + band), band);
    const double knee = power_limit / full;
    if (power_limit <= 0.0 || rise <= 0.25 * knee) return by_pressure;
    const T by_power = knee / rise;
    const T apart = by_pressure - by_power;
    return 0.5 * (by_pressure + by_power - sqrt(apart * apart + rounding * rounding));
  }
  template <class H>
  double power(const H& here) const {
    const double rise = value_of(here.oil[1].pressure) - value_of(here.oil[0].pressure);
    return pumps::at_shaft(value_of(here.state[0]) * full * here.input[0].now() * rise, mechanical);
  }
  template <class T>
  T drawn(const Here<VariablePump, T>& here) const {
    return here.state[0] * (full * here.input[0].now());
  }
  template <class T>
  T case_leak(const Here<VariablePump, T>& here) const {
    return slip * (here.oil[1].pressure - here.oil[2].pressure);
  }
  template <class T>
  Answer<VariablePump, T> law(const Here<VariablePump, T>& here) const {
    const auto& [s, p, l] = here.oil;
    Answer<VariablePump, T> a;
    const T leak = mass_flow(case_leak(here), p, l);
    a.inflow[0] = mass_flow(drawn(here), s, p);
    a.inflow[1] = leak - a.inflow[0];
    a.inflow[2] = -leak;
    a.rate[0] = (allowed(T(p.pressure - s.pressure)) - here.state[0]) * (1.0 / response);
    a.shaft = power(here);
    return a;
  }
  template <class H>
  std::array<double, 4> report(const H& here) const {
    return {power(here), drawn(here) - case_leak(here), power(here) * load, case_leak(here)};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
  double start(int) const { return 1.0; }
};

}  // namespace poise
