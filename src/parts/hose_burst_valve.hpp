// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

/// Hose-burst valve (velocity fuse) in the port of a cylinder: the drop of the flow that leaves the load
/// pushes it shut, and it stays shut until that drop is nearly gone. Free the other way.
struct HoseBurstValve : RoomDefaults {
  static constexpr About about{
      .kind = "hose_burst_valve",
      .sentence =
          "Hose-burst valve: shuts when oil leaves the load faster than its trip flow, and stays shut until "
          "the pressures are nearly equal.",
      .law =
          "drop = (a·Q² + b·Q)/x²; trips as p_B − p_A passes the drop of trip_flow in the oil it was "
          "measured "
          "in, opens again as it falls below reset_drop; x runs to 0 or 1 with the time constant "
          "closing_time/3; shut it passes leakage·drop/rated_pressure",
      .source = "force balance of a spring-held plate (lift-table note on velocity fuses for its behaviour)",
      .beside = "shuts at {trip_flow}"};
  static constexpr std::array parameters{
      Parameter{.name = "trip_flow",
                .quantity = Quantity::flow,
                .low = 1 * si::cm3_per_minute,
                .high = 1000 * si::litre_per_minute,
                .meaning = "flow from B to A at which it shuts, in the oil it was measured in",
                .source = "the valve's datasheet",
                .tolerance = 0.15},
      Parameter{.name = "reset_drop",
                .quantity = Quantity::pressure,
                .fallback = 1 * si::bar,
                .low = 0.05 * si::bar,
                .high = 100 * si::bar,
                .meaning = "pressure difference below which it opens again",
                .source = "the valve's datasheet; default common practice"},
      Parameter{.name = "closing_time",
                .quantity = Quantity::time,
                .fallback = 0.05,
                .low = 1 * si::ms,
                .high = 5.0,
                .meaning = "time that it takes to shut, or to open again, but for 5 %",
                .source = "default common practice",
                .tolerance = {0.5, 1.0}},
      common::rated_flow_or_curve(),
      common::pressure_drop(),
      common::drop_curve(),
      common::measured_viscosity(),
      common::leakage("flow past the shut valve at the rated pressure (350 bar if none is given)"),
      common::rated_pressure(),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "hose"},
      Port{.name = "B", .meaning = "load: the cylinder that it guards"},
  };
  static constexpr std::array state_list{State{"opening", 1e-5, "share of full opening"}};
  static constexpr std::array mode_list{
      Mode{"tripped", "whether it has shut, or is about to", "trips", "opens again"}};
  static constexpr std::array outputs{
      Output{"trip_drop", Quantity::pressure, "pressure difference at which it shuts"}};
  static constexpr std::array faults{
      Fault{.name = "trips too early",
            .sentence =
                "A weak spring or dirt: lowering stops for no reason, and goes on when the load is lifted a "
                "little.",
            .parameter = "trip_flow",
            .change = Fault::Change::times,
            .slight = 0.8,
            .grave = 0.3,
            .source = "lift-table note on velocity fuses; sizes common practice"},
      Fault{.name = "trips too late",
            .sentence = "Turned up or fitted for another load: it does not shut when the hose bursts.",
            .parameter = "trip_flow",
            .change = Fault::Change::times,
            .slight = 1.2,
            .grave = 5.0},
      Fault{.name = "does not shut tight",
            .sentence = "The plate leaks: the load creeps down after the valve has tripped.",
            .parameter = "leakage",
            .change = Fault::Change::becomes,
            .slight = 5 * si::cm3_per_minute,
            .grave = 500 * si::cm3_per_minute,
            .comes = Comes::suddenly},
  };
  static constexpr std::array rules{

      Rule{.name = "blind to slow leaks",
           .sentence =
               "It does not see a leak below its trip flow, and the load moves before it trips: it is no "
               "substitute for a mechanical stop under which people can work.",
           .source = "lift-table note on velocity fuses"},
  };
  static constexpr std::array care{upkeep::burst_valve_trip};
  static constexpr auto sketch = [](bool tripped) {
    using namespace stroke;
    using namespace pieces;
    const double ball = tripped ? -1.29 : 1.5;
    Sketch s;
    s.add(line(0, -3, 0, -2), path(-0.9, -1.1, 0, -2, 0.9, -1.1), circle(0, ball, 0.5),
          line(0, ball + 0.5, 0, 3), bow(-1.5, 2.5, -1.5, 0.5, 0.5), bow(1.5, 0.5, 1.5, 2.5, 0.5),
          chain(box(-2.5, -3, 2.5, 3)));
    if (!tripped) s.add(spring(0, -2, 0, 1));  // pressed flat under the ball
    return s;
  };
  static constexpr auto symbol = sketch(false);
  static constexpr std::array anchors{Anchor{0, -3}, Anchor{0, 3}};
  static std::vector<Stroke> drawn(const Values&, const Pose& pose) {
    return pieces::strokes(sketch(pose.mode_or(0, false)));
  }
  static constexpr int oil_ports = 2, states = 1, modes = 1;

  Restriction open;
  double trip, reset, response, volume;
  Leak leak;

  HoseBurstValve(const Values& v, const Oil& oil)
      : open(common::drop_of(v, oil)),
        trip(trip_drop(v, oil)),
        reset(v["reset_drop"]),
        response(v["closing_time"] / 3.0),
        volume(v["port_volume"]),
        leak(Leak::at(v["leakage"], common::leakage_pressure(v))) {}

  /// The spring knows a pressure difference only: that of the trip flow where it was measured. In thicker oil
  /// the same difference belongs to less flow.
  static double trip_drop(const Values& v, const Oil& oil) {
    Restriction measured = common::drop_of(v, oil);
    if (v.given("measured_viscosity")) measured.b *= v["measured_viscosity"] / oil.viscosity();
    return measured.drop(v["trip_flow"]);
  }
  static std::vector<Mismatch> check(const Values& v) {
    if (trip_drop(v, Oil{OilData{}}) > v["reset_drop"]) return {};
    return {{"reset_drop",
             "it would open again at a pressure difference at which it has just tripped; reset_drop must lie "
             "below the drop of trip_flow"}};
  }
  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }

  template <class T>
  Answer<HoseBurstValve, T> law(const Here<HoseBurstValve, T>& here) const {
    const auto& [hose, load] = here.oil;
    const T drop = hose.pressure - load.pressure;
    Answer<HoseBurstValve, T> a;
    a.inflow[0] = mass_flow(T(open.flow(drop, here.state[0]) + leak.flow(drop)), hose, load);
    a.inflow[1] = -a.inflow[0];
    a.rate[0] = ((here.mode[0] ? 0.0 : 1.0) - here.state[0]) * (1.0 / response);
    return a;
  }
  template <class H>
  std::array<double, 1> turning(const H& here) const {
    const double drop = here.oil[1].pressure - here.oil[0].pressure;
    return {here.mode[0] ? (reset - drop) / reset : (drop - trip) / trip};
  }
  template <class H>
  std::array<double, 1> report(const H&) const {
    return {trip};
  }
  double start(int) const { return 1.0; }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
