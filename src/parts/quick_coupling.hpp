// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/line_care.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Quick-action coupling of two halves, each with its own check. Half made, the checks do not push each other
/// open: it looks joined and is shut. Apart or half made, each half drips by its leakage to L.
struct QuickCoupling : RoomDefaults {
  static constexpr std::array<std::string_view, 3> words{"apart", "half made", "joined"};
  static constexpr About about{
      .kind = "quick_coupling",
      .sentence =
          "Quick-action coupling: joined it is a restriction, apart both halves are shut, half made it is "
          "shut or nearly so.",
      .law =
          "drop = (a·Q² + b·Q)/x², x = 1 joined, half_open half made, 0 apart, straight between them over "
          "making_time; where x < 1 each half leaks (1 − x)·leakage·(p − p_L)/rated_pressure",
      .source = "a restriction; a half-made coupling acts as a shut check (lesson on couplings)",
      .ramp = "making_time"};
  static constexpr std::array parameters{
      Parameter{.name = "position",
                .fallback = 2.0,
                .low = 0.0,
                .high = 2.0,
                .meaning = "apart, half made or joined",
                .words = words,
                .set_by_steps = true},
      Parameter{.name = "making_time",
                .quantity = Quantity::time,
                .fallback = 1.0,
                .low = 0.0,
                .high = 60.0,
                .meaning = "time that hands take to make or part it"},
      Parameter{.name = "half_open",
                .quantity = Quantity::share,
                .fallback = 0.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "share of its area that a half-made coupling opens"},
      common::rated_flow_or_curve(),
      common::pressure_drop(2 * si::bar),
      common::drop_curve(),
      common::measured_viscosity(),
      common::leakage("what each shut half drips at the rated pressure (350 bar if none is given)"),
      common::rated_pressure(),
      common::port_volume(1 * si::cm3),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "one half"},
      Port{.name = "B", .meaning = "other half"},
      Port{.name = "L",
           .meaning = "where the shut halves drip to: join it to the reservoir if they leak",
           .may_stay_free = true,
           .pilot = true},
  };
  static constexpr std::array faults{
      Fault{.name = "half made",
            .sentence =
                "It looks joined but its checks are shut: the actuator behind it is dead, or on a return the "
                "oil cannot leave and an area ratio multiplies the pressure.",
            .parameter = "position",
            .change = Fault::Change::becomes,
            .slight = 1.0,
            .grave = 1.0,
            .source = "lesson on couplings; page on intensification",
            .comes = Comes::after_work},
      Fault{
          .name = "half leaks",
          .sentence = "The check of an uncoupled half drips: a pallet loses its clamping pressure in hours.",
          .parameter = "leakage",
          .change = Fault::Change::becomes,
          .slight = 0.1 * si::cm3_per_minute,
          .grave = 20 * si::cm3_per_minute},
      Fault{.name = "dirty or dented",
            .sentence = "The checks do not open fully: slow, and hot where much oil passes.",
            .parameter = "pressure_drop",
            .change = Fault::Change::times,
            .slight = 3.0,
            .grave = 30.0},
  };
  static constexpr std::array rules{

      Rule{.name = "coupling locked by pressure",
           .sentence =
               "Pressure shut in (sun, or uncoupled under load) keeps it from being joined: a bleed valve, "
               "never a hammer or a cracked fitting.",
           .source = "jack manual (trapped pressure, sun); farm-equipment column"},
      Rule{.name = "coupling hand-tight",
           .sentence = "Screw couplings home by hand on both halves, and look before pressing.",
           .source = "lifting-tool safety page"},

  };
  static constexpr std::array care{upkeep::coupling_clean, upkeep::coupling_drips};
  static constexpr auto sketch = [](double apart) {
    using namespace stroke;
    using namespace pieces;
    const double seat = 1.0 + 0.25 * apart, ball = seat + 0.71 + 0.35 * (1 - apart), cut = 0.2 + 0.3 * apart;
    return join(line(-3, 0, -ball - 0.5, 0), circle(-ball, 0, 0.5),
                path(-seat - 0.9, 0.9, -seat, 0, -seat - 0.9, -0.9), line(-seat, 0, -cut, 0),
                line(cut, 0, seat, 0), path(seat + 0.9, 0.9, seat, 0, seat + 0.9, -0.9), circle(ball, 0, 0.5),
                line(ball + 0.5, 0, 3, 0), line(-cut, -1.25, -cut, 1.25), line(cut, -1.25, cut, 1.25),
                pilot(0, -2, 0, -1.25));
  };
  static constexpr auto symbol = sketch(0.0);
  static constexpr std::array anchors{Anchor{-3, 0}, Anchor{3, 0}, Anchor{0, -2}};
  static std::vector<Stroke> drawn(const Values& v, const Pose& pose) {
    return pieces::strokes(sketch(1.0 - 0.5 * pose.input_or(0, v["position"])));
  }
  static constexpr int oil_ports = 3, inputs = 1;

  std::array<double, 3> opening_of;
  Restriction open;
  Leak leak;
  double volume;

  QuickCoupling(const Values& v, const Oil& oil)
      : opening_of{0.0, v["half_open"], 1.0},
        open(common::drop_of(v, oil)),
        leak(Leak::at(v["leakage"], common::leakage_pressure(v))),
        volume(v["port_volume"]) {}

  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }

  double opening(double position) const {
    const int below = position < 1.0 ? 0 : 1;
    return opening_of[below] + (position - below) * (opening_of[below + 1] - opening_of[below]);
  }
  template <class T>
  Answer<QuickCoupling, T> law(const Here<QuickCoupling, T>& here) const {
    const auto& [a, b, drip] = here.oil;
    const double x = opening(here.input[0].now());
    const T across = mass_flow(T(open.flow(T(a.pressure - b.pressure), x)), a, b);
    const T from_a = mass_flow(T((1.0 - x) * leak.flow(T(a.pressure - drip.pressure))), a, drip);
    const T from_b = mass_flow(T((1.0 - x) * leak.flow(T(b.pressure - drip.pressure))), b, drip);
    Answer<QuickCoupling, T> answer;
    answer.inflow = {across + from_a, from_b - across, -(from_a + from_b)};
    return answer;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
