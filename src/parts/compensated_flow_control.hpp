// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/adjust.hpp"
#include "parts/reverse_check.hpp"
#include "parts/rounded.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

/// Pressure-compensated flow control from A to B. A metering opening that would pass the set flow at the
/// minimum drop, in series with a compensator whose opening c takes up the rest of the pressure difference:
/// Q = flow·q(Δp)·c with q = 1 at the minimum drop, and c follows 1/max(1, q) with a first-order lag.
struct CompensatedFlowControl : RoomDefaults {
  static constexpr About about{
      .kind = "compensated_flow_control",
      .sentence =
          "Flow control with pressure compensator: holds its set flow from A to B whatever the pressures, as "
          "long as the difference is above its minimum.",
      .law =
          "Q = flow·q·c; minimum_drop·(q² + 0.1·q)/1.1 = p_A − p_B; response_time·dc/dt = target − c; target "
          "= 1 below the minimum drop, (1 + error·(p_A − p_B − minimum_drop)/rated_pressure)/q above, of "
          "which the compensator gives the share `compensation`; from B to A a restriction, and the check",
      .source =
          "metering orifice with a pressure compensator in series, e.g. Merritt, Hydraulic Control Systems "
          "(from memory)",
      .ramp = "turning_time",
      .beside = "{flow}"};
  static constexpr std::array parameters{
      Parameter{.name = "flow",
                .quantity = Quantity::flow,
                .low = 0.0,
                .high = 1000 * si::litre_per_minute,
                .meaning = "flow it is set to, by stop-watch",
                .set_by_steps = true,
                .adjusted = true,
                .tolerance = 0.05},
      Parameter{.name = "minimum_drop",
                .quantity = Quantity::pressure,
                .fallback = 8 * si::bar,
                .low = 0.5 * si::bar,
                .high = 50 * si::bar,
                .meaning = "least pressure difference at which it holds its flow",
                .source = "the valve's datasheet; 7 to 10 bar common practice (from memory)"},
      Parameter{.name = "error",
                .quantity = Quantity::share,
                .fallback = 0.03,
                .low = -0.3,
                .high = 0.3,
                .meaning =
                    "rise of the flow from the minimum drop to a drop as high as the rated pressure (350 bar "
                    "if none is given)",
                .source = "the valve's datasheet; 3 to 8 % common practice"},
      Parameter{.name = "compensation",
                .quantity = Quantity::share,
                .fallback = 1.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "share of its way that the compensator moves: 1 works, 0 sticks fully open"},
      common::response_time(),
      common::turning_time(),
      ReverseCheck::fitted_line(),
      common::cracking_pressure(0.5 * si::bar),
      [] {
        Parameter line = common::rated_flow_or_curve();
        line.meaning = "flow of the reverse check at which its pressure drop is stated";
        line.optional = true;
        return line;
      }(),
      common::pressure_drop(),
      common::drop_curve(),
      common::measured_viscosity(),
      common::rated_pressure(),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "inlet of the controlled direction"},
      Port{.name = "B", .meaning = "outlet of the controlled direction"},
  };
  static constexpr std::array state_list{
      State{"compensator", 1e-5, "share that the compensator leaves open; 1 at rest"}};
  static constexpr std::array faults{
      Fault{
          .name = "compensator sticks",
          .sentence = "Dirt holds the compensator open: the speed changes with the load, as behind a needle.",
          .parameter = "compensation",
          .change = Fault::Change::becomes,
          .slight = 0.9,
          .grave = 0.0,
          .comes = Comes::suddenly},
      Fault{.name = "setting has drifted",
            .sentence = "The screw has moved or the opening is worn: the motion takes another time.",
            .parameter = "flow",
            .change = Fault::Change::times,
            .slight = 1.05,
            .grave = 1.5},
      Fault{.name = "opening is clogged",
            .sentence = "Dirt closes the metering opening: slower, and worse each day.",
            .parameter = "flow",
            .change = Fault::Change::times,
            .slight = 0.9,
            .grave = 0.1},
  };
  static constexpr std::array rules{

      Rule{.name = "start jump",
           .sentence =
               "At rest the compensator stands open: the motion starts with a jump until it has closed."},
  };
  static constexpr std::array adjusting{adjust::by_flow};
  static constexpr std::array care{upkeep::flow_timed, upkeep::adjuster_locked};
  static constexpr auto sketch = [](bool check, bool back) {
    using namespace stroke;
    using namespace pieces;
    Sketch s;
    s.add(box(0, 0, 4, 4), line(2, -2, 2, 6), restriction(2, 2), arrow(3.4, 0.75, 3.4, 3.25),
          adjustable(2, 2, 2.75));
    if (check) s.add(check_down(7, 2, back), beside(7, -1, 5));
    return s;
  };
  static constexpr auto symbol = sketch(false, false);
  static constexpr std::array anchors{Anchor{2, -2}, Anchor{2, 6}};
  static std::vector<Stroke> drawn(const Values& v, const Pose& pose) {
    return pieces::strokes(sketch(v.word("reverse_check") == 1, pose.enters(1)));
  }
  static constexpr int oil_ports = 2, states = 1, inputs = 1;

  double minimum, error_per_pressure, compensation, response, volume;
  Restriction unit;  ///< of the metering opening, for a set flow of 1
  ReverseCheck back;

  CompensatedFlowControl(const Values& v, const Oil& oil)
      : minimum(v["minimum_drop"]),
        error_per_pressure(v["error"] / common::leakage_pressure(v)),
        compensation(v["compensation"]),
        response(v["response_time"]),
        volume(v["port_volume"]),
        unit(Restriction::through(1.0, minimum)),
        back{v.word("reverse_check") == 1, common::CheckOpening(v["cracking_pressure"]),
             v.word("reverse_check") == 1 ? common::drop_of(v, oil) : Restriction{}} {}

  static std::vector<Mismatch> check(const Values& v) {
    if (v.word("reverse_check") == 0) return {};
    if (!v.given("rated_flow") && !v.given("drop_curve")) {
      return {{"rated_flow",
               "the pressure drop of the reverse check is missing; state rated_flow (and pressure_drop), or "
               "drop_curve"}};
    }
    return common::check_opens_below_drop(v);
  }
  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }

  /// What the compensator wants to leave open, for a pressure difference and the flow it makes at set flow 1.
  template <class T>
  T wanted(const T& drop, const T& q) const {
    constexpr double rounding = 0.01;
    const T held = (1.0 + error_per_pressure * rounded_positive(T(drop - minimum), rounding * minimum)) /
                   (1.0 + rounded_positive(T(q - 1.0), rounding));
    return 1.0 + compensation * (held - 1.0);
  }
  template <class T>
  Answer<CompensatedFlowControl, T> law(const Here<CompensatedFlowControl, T>& here) const {
    const auto& [in, out] = here.oil;
    const T drop = in.pressure - out.pressure;
    const T q = unit.flow(drop, 1.0);
    const T flow = here.input[0].now() * q * here.state[0] - back.flow(T(-drop));
    Answer<CompensatedFlowControl, T> a;
    a.inflow[0] = mass_flow(flow, in, out);
    a.inflow[1] = -a.inflow[0];
    a.rate[0] = (wanted(drop, q) - here.state[0]) * (1.0 / response);
    return a;
  }
  double start(int) const { return 1.0; }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
