// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/adjust.hpp"
#include "parts/common.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

/// What relief valves share: when they crack, over which band they open, and what they pass fully open.
struct ReliefOpening {
  double cracking = 0.0;  ///< Pa
  double band = 0.0;      ///< Pa, from cracking to fully open
  Restriction open;       ///< passes the rated flow at cracking + band

  /// From setting, setting_flow, override and rated_flow; or from override_curve.
  explicit ReliefOpening(const Values& v);
  /// A valve that is fully open, passing `flow`, `over` above the pressure it cracks at.
  ReliefOpening(double cracks_at, double over, double flow);
  /// Pressure over the valve while it passes a flow at rest, Pa; in the band p = cracking + band·x with
  /// p = (a·Q² + b·Q)/x².
  double pressure(double flow) const;
};

namespace relief {

inline constexpr double highest_setting = 1200 * si::bar;

constexpr Parameter setting() {
  return {.name = "setting",
          .quantity = Quantity::pressure,
          .low = 0.5 * si::bar,
          .high = highest_setting,
          .meaning = "cracking pressure, or the pressure read at setting_flow if that is given",
          .instead = "override_curve",
          .adjusted = true,
          .tolerance = 0.03};
}
constexpr Parameter setting_flow() {
  return {.name = "setting_flow",
          .quantity = Quantity::flow,
          .low = 0.0,
          .high = 1000 * si::litre_per_minute,
          .meaning = "flow over the valve while it was set; left out, the setting is the cracking pressure",
          .optional = true};
}
constexpr Parameter override_share(double fallback = 0.10) {
  return {.name = "override",
          .quantity = Quantity::share,
          .fallback = fallback,
          .low = 0.005,
          .high = 1.0,
          .meaning = "rise from cracking to rated flow, as a share of the cracking pressure",
          .source = "the valve's datasheet; default common practice",
          .tolerance = 0.5};
}
constexpr Parameter override_curve() {
  return {.name = "override_curve",
          .quantity = Quantity::flow,
          .low = 0.0,
          .high = 1000 * si::litre_per_minute,
          .meaning =
              "instead of setting, override and rated_flow: points of flow and pressure over the valve as "
              "it stands; cracking pressure, band and open restriction are fitted by least squares",
          .source = "the valve's datasheet",
          .optional = true,
          .against = Quantity::pressure,
          .fewest_points = 3,
          .tolerance = 0.03};
}
constexpr Parameter rated_flow() {
  Parameter line = common::rated_flow();
  line.meaning = "flow that it passes at the end of its override";
  line.instead = "override_curve";
  return line;
}

/// Datasheet lines of the direct-acting kinds.
inline constexpr std::array direct_parameters{
    setting(),
    setting_flow(),
    override_share(),
    rated_flow(),
    override_curve(),
    common::rated_pressure(),
    common::response_time(),
    common::least_opening(),
    common::greatest_opening(),
    common::port_volume(),
};
inline constexpr std::array state_list{State{.name = "opening", .meaning = "share of full opening"}};
inline constexpr std::array outputs{
    Output{"cracking_pressure", Quantity::pressure, "pressure difference at which it begins to open"}};

inline constexpr std::array faults{
    Fault{.name = "dirt on the seat",
          .sentence =
              "It stays partly open: pressure low at every setting, hiss, hot tank line; what flows over "
              "it does not shrink as it is screwed up.",
          .parameter = "least_opening",
          .change = Fault::Change::becomes,
          .slight = 0.01,
          .grave = 0.3},
    Fault{.name = "stuck wide open",
          .sentence =
              "Spring broken, control hole blocked or hung open: no pressure at all, adjusting does nothing.",
          .parameter = "least_opening",
          .change = Fault::Change::becomes,
          .slight = 0.5,
          .grave = 1.0,
          .comes = Comes::suddenly},
    Fault{.name = "spring relaxed",
          .sentence = "Turned down or its spring has set: everything is right up to a lower top pressure.",
          .parameter = "setting",
          .slight = 0.97,
          .grave = 0.6},
    Fault{.name = "turned up",
          .sentence = "Turned up, or its spring chamber is blocked: the top pressure is higher. Danger.",
          .parameter = "setting",
          .slight = 1.05,
          .grave = 1.5,
          .comes = Comes::after_work},
    Fault{.name = "stuck shut",
          .sentence = "Nothing limits the pressure: the pump labours, the gauge goes to its end, something "
                      "bursts. Stop at once.",
          .parameter = "greatest_opening",
          .change = Fault::Change::becomes,
          .slight = 0.1,
          .grave = 0.0,
          .comes = Comes::suddenly},
    Fault{.name = "worn",
          .sentence =
              "Large override: the top pressure depends on the flow and it sheds oil long before the top.",
          .parameter = "override",
          .slight = 2.0,
          .grave = 4.0},
    Fault{.name = "not damped",
          .sentence =
              "Its damping is worn or the wrong orifice is in it: it opens at once, chatters and screams.",
          .parameter = "response_time",
          .slight = 0.5,
          .grave = 0.1},
};

inline constexpr Rule second_means{
    "stuck shut has a second means",
    "Near people one valve is not enough: a grain of dirt can hold it shut. A pump "
    "that stalls, or a second valve, limits then."};

/// What does not go together in a relief valve's datasheet.
std::vector<Mismatch> check(const Values& v);
/// The override curve beside the law.
std::vector<CurveFit> fit(const Values& v);

}  // namespace relief

/// Direct-acting relief valve. Its spring chamber sees the outlet, so back pressure in the tank line adds to
/// the setting: τ·dx/dt = clamp((p_P − p_T − p_crack)/band, 0, 1) − x; fully open it passes the rated flow at
/// p_crack + band.
struct Relief : RoomDefaults {
  static constexpr About about{
      .kind = "relief",
      .sentence =
          "Direct-acting pressure-relief valve: opens to tank above its setting and limits the pressure.",
      .law =
          "response_time · dx/dt = clamp((p_P − p_T − p_crack)/band, 0, 1) − x, band = override · p_crack; "
          "drop = (a·Q² + b·Q)/x², rated flow at p_crack + band",
      .source =
          "one law of opening for pressure valves; override of a spring-loaded poppet: Esposito, Fluid Power "
          "with Applications, 6th ed. (poppet spring example)",
      .role = Role::pressure_limit,
      .beside = "[{setting}|from {override_curve.first}]\n[at {setting_flow}|cracking]"};
  static constexpr auto parameters = relief::direct_parameters;
  static constexpr std::array ports{
      Port{.name = "P", .meaning = "the line it guards"},
      Port{.name = "T", .meaning = "outlet to tank"},
  };
  static constexpr auto state_list = relief::state_list;
  static constexpr auto outputs = relief::outputs;
  static constexpr auto faults = relief::faults;
  static constexpr std::array rules{relief::second_means};
  static constexpr std::array adjusting{adjust::relief};
  static constexpr std::array care{upkeep::relief_test, upkeep::adjuster_locked, upkeep::relief_silent};
  static constexpr auto sketch = [](bool open) {
    using namespace stroke;
    using namespace pieces;
    return join(opens_by_inlet(open));
  };
  static constexpr auto symbol = sketch(false);
  static constexpr std::array anchors{Anchor{2, -2}, Anchor{2, 5}};
  static std::vector<Stroke> drawn(const Values&, const Pose& pose) {
    return pieces::strokes(sketch(pose.enters(0)));
  }
  static constexpr int oil_ports = 2, states = 1;

  ReliefOpening seat;
  common::Travel travel;
  double response, volume;

  Relief(const Values& v, const Oil&)
      : seat(v), travel(v), response(v["response_time"]), volume(v["port_volume"]) {}

  static std::vector<Mismatch> check(const Values& v) { return relief::check(v); }
  static std::vector<CurveFit> curves(const Values& v, const Oil&) { return relief::fit(v); }

  template <class T>
  Answer<Relief, T> law(const Here<Relief, T>& here) const {
    const T drop = here.oil[0].pressure - here.oil[1].pressure;
    Answer<Relief, T> a;
    a.inflow[0] = mass_flow(seat.open.flow(drop, here.state[0]), here.oil[0], here.oil[1]);
    a.inflow[1] = -a.inflow[0];
    const T target = travel.opening(share_of_band(T(drop - seat.cracking), seat.band));
    a.rate[0] = (target - here.state[0]) * (1.0 / response);
    return a;
  }
  template <class H>
  std::array<double, 1> report(const H&) const {
    return {seat.cracking};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

/// Direct-acting relief valve whose spring chamber drains by a line of its own: back pressure at the outlet
/// does not add to the setting, pressure in the drain does. Opens with p_P − p_Y − p_crack.
struct ExternallyDrainedRelief : RoomDefaults {
  static constexpr About about{
      .kind = "externally_drained_relief",
      .sentence =
          "Pressure-relief valve with its spring chamber drained outside: back pressure at its outlet does "
          "not raise the limit.",
      .law =
          "response_time · dx/dt = clamp((p_P − p_Y − p_crack)/band, 0, 1) − x, band = override · p_crack; "
          "drop p_P − p_T = (a·Q² + b·Q)/x², rated flow at a drop of p_crack + band",
      .source = "one law of opening for pressure valves",
      .role = Role::pressure_limit,
      .beside = "[{setting}|from {override_curve.first}]\n[at {setting_flow}|cracking]"};
  static constexpr auto parameters = relief::direct_parameters;
  static constexpr std::array ports{
      Port{.name = "P", .meaning = "the line it guards"},
      Port{.name = "T", .meaning = "outlet"},
      Port{.name = "Y", .meaning = "drain of the spring chamber, to tank without pressure", .pilot = true},
  };
  static constexpr auto state_list = relief::state_list;
  static constexpr auto outputs = relief::outputs;
  static constexpr auto faults = relief::faults;
  static constexpr std::array rules{relief::second_means};
  static constexpr std::array adjusting{adjust::relief};
  static constexpr std::array care{upkeep::relief_test, upkeep::adjuster_locked, upkeep::relief_silent,
                                   upkeep::drain_free};
  static constexpr auto sketch = [](bool open) {
    using namespace stroke;
    using namespace pieces;
    return join(opens_by_inlet(open), spring_drain(-2));
  };
  static constexpr auto symbol = sketch(false);
  static constexpr std::array anchors{Anchor{2, -2}, Anchor{2, 5}, Anchor{5, -2}};
  static std::vector<Stroke> drawn(const Values&, const Pose& pose) {
    return pieces::strokes(sketch(pose.enters(0)));
  }
  static constexpr int oil_ports = 3, states = 1;

  ReliefOpening seat;
  common::Travel travel;
  double response, volume;

  ExternallyDrainedRelief(const Values& v, const Oil&)
      : seat(v), travel(v), response(v["response_time"]), volume(v["port_volume"]) {}

  static std::vector<Mismatch> check(const Values& v) { return relief::check(v); }
  static std::vector<CurveFit> curves(const Values& v, const Oil&) { return relief::fit(v); }

  template <class T>
  Answer<ExternallyDrainedRelief, T> law(const Here<ExternallyDrainedRelief, T>& here) const {
    const auto& [p, t, y] = here.oil;
    Answer<ExternallyDrainedRelief, T> a;
    a.inflow[0] = mass_flow(seat.open.flow(T(p.pressure - t.pressure), here.state[0]), p, t);
    a.inflow[1] = -a.inflow[0];
    const T target = travel.opening(share_of_band(T(p.pressure - y.pressure - seat.cracking), seat.band));
    a.rate[0] = (target - here.state[0]) * (1.0 / response);
    return a;
  }
  template <class H>
  std::array<double, 1> report(const H&) const {
    return {seat.cracking};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
