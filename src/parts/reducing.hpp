// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/adjust.hpp"
#include "parts/common.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

namespace reducing {

constexpr Parameter setting() {
  return {.name = "setting",
          .quantity = Quantity::pressure,
          .low = 1 * si::bar,
          .high = 1000 * si::bar,
          .meaning = "outlet pressure at which it is shut, above the drain",
          .adjusted = true,
          .tolerance = 0.03};
}
constexpr Parameter override_share() {
  return {.name = "override",
          .quantity = Quantity::share,
          .fallback = 0.05,
          .low = 0.005,
          .high = 1.0,
          .meaning = "fall of the outlet from shut to fully open, as a share of the setting",
          .source = "the valve's datasheet; default common practice",
          .tolerance = 0.5};
}

inline constexpr Fault sticks_open{
    .name = "sticks open",
    .sentence = "It does not shut: the weak branch comes to the main pressure.",
    .parameter = "least_opening",
    .change = Fault::Change::becomes,
    .slight = 0.02,
    .grave = 1.0,
    .comes = Comes::suddenly};
inline constexpr Fault sticks_shut{.name = "sticks shut",
                                   .sentence = "The branch is slow or dead; the main pressure is right.",
                                   .parameter = "greatest_opening",
                                   .change = Fault::Change::becomes,
                                   .slight = 0.1,
                                   .grave = 0.0,
                                   .comes = Comes::suddenly};
inline constexpr Fault relaxed{.name = "spring relaxed",
                               .sentence = "The branch is too weak; the main pressure is right.",
                               .parameter = "setting",
                               .slight = 0.97,
                               .grave = 0.6};
inline constexpr Fault turned_up{.name = "turned up",
                                 .sentence = "The branch is too strong; the main pressure is right.",
                                 .parameter = "setting",
                                 .slight = 1.03,
                                 .grave = 1.3,
                                 .comes = Comes::after_work};

inline constexpr Rule order{
    "order of setting",
    "First the main relief, then reducing valves shut off, then sequence valves, then flows: later "
    "settings wander otherwise.",
    "commissioning practice"};

/// The spring against the outlet: fully open up to setting − band, shut at the setting.
struct Spring {
  double setting, band;
  explicit Spring(const Values& v) : setting(v["setting"]), band(v["override"] * setting) {}
  template <class T>
  T share(const T& outlet) const {
    return share_of_band(T(setting - outlet), band);
  }
};

}  // namespace reducing

/// Pressure-reducing valve, relieving: open at rest, it shuts as its outlet nears the setting, and above the
/// setting plus a dead band lets the outlet off to tank. One spool y in [−1, 1], one lag; y > 0 opens P→A, y
/// < 0 opens A→T.
struct Reducing : RoomDefaults {
  static constexpr About about{
      .kind = "reducing",
      .sentence = "Pressure-reducing valve, relieving: holds a branch below the main pressure.",
      .law =
          "e = p_A − p_T; y goes to clamp((setting − e)/band, 0, 1) or, above setting + dead_band, to "
          "−clamp((e − setting − dead_band)/band, 0, 1), with response_time; drop = (a·Q² + b·Q)/y²",
      .source =
          "one law of opening for pressure valves; the setting is read with nothing flowing (common "
          "practice)",
      .beside = "{setting}"};
  static constexpr std::array parameters{
      reducing::setting(),
      reducing::override_share(),
      Parameter{.name = "dead_band",
                .quantity = Quantity::share,
                .fallback = 0.03,
                .low = 0.0,
                .high = 0.5,
                .meaning = "from shut to the beginning of relieving, as a share of the setting"},
      common::rated_flow_or_curve(),
      common::pressure_drop(8 * si::bar),
      common::drop_curve(),
      common::measured_viscosity(),
      common::rated_pressure(),
      common::response_time(),
      common::least_opening(),
      common::greatest_opening(),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "P", .meaning = "main pressure in"},
      Port{.name = "A", .meaning = "reduced pressure out"},
      Port{.name = "T", .meaning = "drain and relieving outlet to tank"},
  };
  static constexpr std::array state_list{
      State{.name = "spool", .meaning = "1 fully open, 0 shut, −1 relieving fully"}};
  static constexpr std::array faults{reducing::sticks_open, reducing::sticks_shut, reducing::relaxed,
                                     reducing::turned_up};
  static constexpr std::array rules{reducing::order};
  static constexpr std::array adjusting{adjust::reducing};
  static constexpr std::array care{upkeep::reduced_reading, upkeep::adjuster_locked, upkeep::drain_free};
  static constexpr auto sketch = [](double shift) {
    using namespace stroke;
    using namespace pieces;
    return join(moved(join(box(-4, 0, 0, 4), box(0, 0, 4, 4), arrow(1, 0, 1, 4), shut_port(3, 0, 1),
                           shut_port(-3, 0, 1), arrow(-3, 4, -1, 0), line(-4, -0.5, 4, -0.5),
                           line(-4, 4.5, 4, 4.5), adjustable_spring(4, 2)),
                      shift, 0),
                line(1, -1, 1, 0), line(3, -1, 3, 0), line(1, 4, 1, 7),
                pilot(1, 5.5, shift - 5, 5.5, shift - 5, 2, shift - 4, 2));
  };
  static constexpr auto symbol = sketch(0.0);
  static constexpr std::array anchors{Anchor{1, -1}, Anchor{1, 7}, Anchor{3, -1}};
  static std::vector<Stroke> drawn(const Values&, const Pose& pose) {
    const bool relieves = pose.enters(1);  // A lets its surplus off to T
    return pieces::strokes(sketch(relieves ? 4.0 : 0.0));
  }
  static constexpr int oil_ports = 3, states = 1;

  reducing::Spring spring;
  double dead, response, volume;
  common::Travel travel;
  Restriction open;

  Reducing(const Values& v, const Oil& oil)
      : spring(v),
        dead(v["dead_band"] * spring.setting),
        response(v["response_time"]),
        volume(v["port_volume"]),
        travel(v),
        open(common::drop_of(v, oil)) {}

  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }
  template <class T>
  Answer<Reducing, T> law(const Here<Reducing, T>& here) const {
    const auto& [p, a, t] = here.oil;
    const T y = here.state[0];
    const T forward = mass_flow(open.flow(T(p.pressure - a.pressure), travel.opening(positive(y))), p, a);
    const T relieving =
        mass_flow(open.flow(T(a.pressure - t.pressure), T(travel.span * positive(T(-y)))), a, t);
    const T e = a.pressure - t.pressure;
    const T target = spring.share(e) - share_of_band(T(e - spring.setting - dead), spring.band);
    Answer<Reducing, T> out;
    out.inflow = {forward, relieving - forward, -relieving};
    out.rate[0] = (target - y) * (1.0 / response);
    return out;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
  double start(int) const { return 1.0; }
};

}  // namespace poise
