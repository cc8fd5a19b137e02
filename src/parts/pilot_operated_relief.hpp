// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/adjust.hpp"
#include "parts/relief.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

/// Pilot-operated relief valve. The chamber behind the main poppet is port X: oil gets into it from P by a
/// small orifice and out of it to T over the pilot seat. Without pilot flow the poppet is pressed shut; as
/// the pilot opens, the orifice takes pressure, and from vented_pressure on the poppet lifts. Letting X to
/// tank unloads the valve; a small relief valve at X sets it from afar. The pilot drains inside, to T: back
/// pressure at the outlet adds to the setting.
struct PilotOperatedRelief : RoomDefaults {
  static constexpr std::array<std::string_view, 2> fitted{"none", "fitted"};
  static constexpr About about{
      .kind = "pilot_operated_relief",
      .sentence =
          "Pressure-relief valve with a pilot stage: little override, and by its vent port it is unloaded or "
          "set from afar.",
      .law =
          "pilot seat: Q_X→T over x_p = clamp((p_X − p_T − p_p)/band_p, 0, 1), at once; orifice: Q_P→X; "
          "main: "
          "response_time · dx/dt = clamp((p_P − p_X − vented_pressure)/(stiffness + flow_force·(p_P − p_T)), "
          "0, 1) "
          "− x; drop = (a·Q² + b·Q)/x². p_p is such that the main stage lifts at the setting, flow_force "
          "such that "
          "it passes rated_flow at setting·(1 + override)",
      .source =
          "force balance on main poppet and pilot seat, flow force proportional to opening and drop: "
          "Merritt, "
          "Hydraulic Control Systems (from memory)",
      .role = Role::pressure_limit,
      .beside = "{setting}\n[at {setting_flow}|cracking]"};
  static constexpr std::array parameters{
      Parameter{
          .name = "setting",
          .quantity = Quantity::pressure,
          .low = 5 * si::bar,
          .high = 700 * si::bar,
          .meaning =
              "pressure at which its main stage begins to open, or the pressure read at setting_flow if "
              "that is given",
          .adjusted = true,
          .tolerance = 0.03},
      relief::setting_flow(),
      relief::override_share(0.03),
      common::rated_flow(),
      common::pressure_drop(8 * si::bar),
      Parameter{.name = "vented_pressure",
                .quantity = Quantity::pressure,
                .fallback = 4 * si::bar,
                .low = 0.5 * si::bar,
                .high = 30 * si::bar,
                .meaning =
                    "pressure over the valve at which its main stage begins to open while X is without "
                    "pressure: its main spring"},
      Parameter{.name = "pilot_flow",
                .quantity = Quantity::flow,
                .fallback = 0.5 * si::litre_per_minute,
                .low = 10 * si::cm3_per_minute,
                .high = 10 * si::litre_per_minute,
                .meaning = "flow over the pilot as the main stage begins to open"},
      Parameter{.name = "vent",
                .fallback = 0.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "whether the chamber can be reached from outside, at X",
                .words = fitted},
      common::rated_pressure(),
      [] {
        Parameter line = common::response_time();
        line.fallback = 25 * si::ms;
        return line;
      }(),
      common::least_opening(),
      common::greatest_opening(),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "P", .meaning = "the line it guards"},
      Port{.name = "T", .meaning = "outlet to tank, and drain of the pilot"},
      Port{.name = "X",
           .meaning = "vent: the chamber behind the main poppet",
           .needed_if_parameter = "vent",
           .needed_if_word = 1,
           .pilot = true},
  };
  static constexpr auto state_list = relief::state_list;
  static constexpr auto outputs = relief::outputs;
  static constexpr auto faults = relief::faults;
  static constexpr std::array rules{
      relief::second_means,
      Rule{"vent is part of the limit",
           "Whatever is joined at X decides on the limit: a leak or an open valve there "
           "unloads the pump, a long line makes the valve slow, and a shut way leaves its own setting."},
      Rule{"slower than a direct valve",
           "It needs its pilot first: where a pressure jumps, a small direct valve "
           "beside it takes the peak."}};
  static constexpr std::array adjusting{adjust::relief};
  static constexpr std::array care{upkeep::relief_test, upkeep::adjuster_locked, upkeep::relief_silent,
                                   upkeep::vent_line};
  static constexpr auto sketch = [](bool open, bool vent) {
    using namespace stroke;
    using namespace pieces;
    Sketch s;
    s.add(one_box(-2, 5), way_up(open), pilot_from_below(), box(4, 1, 6, 3), filled(4.5, 2, 1, 180),
          adjustable_spring(6, 2));
    if (vent) s.add(pilot(5, 1, 5, -2));
    return s;
  };
  static constexpr auto symbol = sketch(false, true);
  static constexpr std::array anchors{Anchor{2, -2}, Anchor{2, 5}, Anchor{5, -2}};
  static std::vector<Stroke> drawn(const Values& v, const Pose& pose) {
    return pieces::strokes(sketch(pose.enters(0), v.word("vent") == 1));
  }
  static constexpr int oil_ports = 3, states = 1;

  /// The valve as numbers: found from what its datasheet says.
  struct Stages {
    ReliefOpening pilot;      ///< its seat
    Restriction orifice;      ///< into the chamber
    Restriction main;         ///< fully open
    double spring = 0.0;      ///< Pa
    double stiffness = 0.0;   ///< Pa from shut to fully open
    double flow_force = 0.0;  ///< further share of the pressure over the valve
    /// A valve whose main stage begins to open at `cracking`.
    Stages(const Values& v, double cracking);
    /// Pressure over the valve while it passes a flow at rest.
    double pressure(double flow) const;
  };

  double cracking;
  Stages stages;
  common::Travel travel;
  double response, volume;

  PilotOperatedRelief(const Values& v, const Oil&)
      : cracking(cracking_of(v)),
        stages(v, cracking),
        travel(v),
        response(v["response_time"]),
        volume(v["port_volume"]) {}

  /// Where it begins to open if it reads `setting` with `setting_flow` over it.
  static double cracking_of(const Values& v);
  static std::vector<Mismatch> check(const Values& v);

  template <class T>
  Answer<PilotOperatedRelief, T> law(const Here<PilotOperatedRelief, T>& here) const {
    const auto& [p, t, x] = here.oil;
    const T over = p.pressure - t.pressure, over_pilot = x.pressure - t.pressure;
    const T main = mass_flow(stages.main.flow(over, here.state[0]), p, t);
    const T into = mass_flow(stages.orifice.flow(T(p.pressure - x.pressure), 1.0), p, x);
    const T seat = share_of_band(T(over_pilot - stages.pilot.cracking), stages.pilot.band);
    const T pilot = mass_flow(stages.pilot.open.flow(over_pilot, seat), x, t);
    Answer<PilotOperatedRelief, T> a;
    a.inflow = {main + into, -main - pilot, pilot - into};
    const T band = stages.stiffness + stages.flow_force * positive(over);
    const T lifted = share_of_band(T((p.pressure - x.pressure - stages.spring) / band), 1.0);
    a.rate[0] = (travel.opening(lifted) - here.state[0]) * (1.0 / response);
    return a;
  }
  template <class H>
  std::array<double, 1> report(const H&) const {
    return {cracking};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
