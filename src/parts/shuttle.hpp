// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

/// Shuttle valve: a ball between two seats. The inlet with the higher pressure is joined to C, the other seat
/// is shut. While the pressures are within the shift pressure of each other the ball is on its way and both
/// seats are partly open, so that C can always drain.
struct Shuttle : RoomDefaults {
  static constexpr About about{
      .kind = "shuttle",
      .sentence = "Shuttle valve: joins C to the inlet with the higher pressure and shuts the other.",
      .law =
          "x_A = clamp((p_A − p_B)/shift_pressure + 1/2, 0, 1), x_B = 1 − x_A, neither below held_open; each "
          "seat: drop = (a·Q² + b·Q)/x²; a shut seat leaks leakage·drop/rated_pressure",
      .source = "force balance of a ball between two seats of one size, no lag"};
  static constexpr std::array parameters{
      Parameter{.name = "shift_pressure",
                .quantity = Quantity::pressure,
                .fallback = 0.5 * si::bar,
                .low = 0.05 * si::bar,
                .high = 20 * si::bar,
                .meaning = "pressure difference over which the ball moves from one seat to the other",
                .tolerance = 0.3},
      common::rated_flow_or_curve(),
      common::pressure_drop(),
      common::drop_curve(),
      common::measured_viscosity(),
      common::leakage("flow past a shut seat at the rated pressure (350 bar if none is given)"),
      Parameter{.name = "held_open",
                .quantity = Quantity::share,
                .fallback = 0.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "opening that dirt under the ball leaves at each seat"},
      common::rated_pressure(),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "one inlet"},
      Port{.name = "B", .meaning = "other inlet"},
      Port{.name = "C", .meaning = "outlet"},
  };
  static constexpr std::array outputs{
      Output{"from_A", Quantity::share, "opening of the seat at A: 1 joins A to C, 0 joins B to C"}};
  static constexpr std::array faults{
      Fault{.name = "ball stuck between its seats",
            .sentence = "Dirt holds the ball: both seats pass oil, and the wrong line feeds C or bleeds it.",
            .parameter = "held_open",
            .change = Fault::Change::becomes,
            .slight = 0.05,
            .grave = 0.5,
            .comes = Comes::suddenly},
      Fault{.name = "seat leaks",
            .sentence = "The shut seat passes oil: the line that should be cut off slowly takes part.",
            .parameter = "leakage",
            .change = Fault::Change::becomes,
            .slight = 1 * si::cm3_per_minute,
            .grave = 100 * si::cm3_per_minute},
  };
  static constexpr std::array rules{
      Rule{.name = "shuttle passes the higher",
           .sentence =
               "C shows only the higher of the two pressures: it proves that one line is pressed, never that "
               "both are."},
  };
  static constexpr std::array care{upkeep::sides_switch};
  static constexpr auto sketch = [](bool from_a) {
    using namespace stroke;
    using namespace pieces;
    return join(box(-2.5, -1.5, 2.5, 1.5), line(-3, 0, -1.75, 0), path(-0.85, 0.9, -1.75, 0, -0.85, -0.9),
                circle(from_a ? 1.04 : -1.04, 0, 0.5), line(1.75, 0, 3, 0),
                path(0.85, 0.9, 1.75, 0, 0.85, -0.9), line(0, 0, 0, 2));
  };
  static constexpr auto symbol = sketch(false);
  static constexpr std::array anchors{Anchor{-3, 0}, Anchor{3, 0}, Anchor{0, 2}};
  static std::vector<Stroke> drawn(const Values&, const Pose& pose) {
    const bool from_a = pose.runs(0) && std::abs(pose.flow[0]) > std::abs(pose.flow[1]);
    return pieces::strokes(sketch(from_a));
  }
  static constexpr int oil_ports = 3;

  double shift, held_open, volume;
  Restriction open;
  Leak leak;

  Shuttle(const Values& v, const Oil& oil)
      : shift(v["shift_pressure"]),
        held_open(v["held_open"]),
        volume(v["port_volume"]),
        open(common::drop_of(v, oil)),
        leak(Leak::at(v["leakage"], common::leakage_pressure(v))) {}

  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }

  template <class T>
  T share_of_a(const OilHere<T>& a, const OilHere<T>& b) const {
    return share_of_band(T(a.pressure - b.pressure + 0.5 * shift), shift);
  }
  template <class T>
  T through(const OilHere<T>& from, const OilHere<T>& to, const T& share) const {
    const T drop = from.pressure - to.pressure;
    return mass_flow(T(open.flow(drop, T(held_open + (1.0 - held_open) * share)) + leak.flow(drop)), from,
                     to);
  }
  template <class T>
  Answer<Shuttle, T> law(const Here<Shuttle, T>& here) const {
    const auto& [a, b, c] = here.oil;
    const T share = share_of_a(a, b);
    Answer<Shuttle, T> answer;
    answer.inflow[0] = through(a, c, share);
    answer.inflow[1] = through(b, c, T(1.0 - share));
    answer.inflow[2] = -(answer.inflow[0] + answer.inflow[1]);
    return answer;
  }
  template <class H>
  std::array<double, 1> report(const H& here) const {
    return {share_of_a(here.oil[0], here.oil[1])};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
