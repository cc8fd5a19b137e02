// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/reverse_check.hpp"
#include "parts/symbol_pieces.hpp"
#include "parts/valve_care.hpp"

namespace poise {

/// Deceleration (cam) valve: a cam on the moving part presses a roller, and the opening changes evenly
/// between two positions of the cam. The force at the roller is left out: it is small beside those of a
/// cylinder.
struct CamValve : RoomDefaults {
  static constexpr std::array<std::string_view, 2> rests{"open", "closed"};
  static constexpr About about{
      .kind = "cam_valve",
      .sentence =
          "Valve worked by a cam on the moving part: slows a motion as it nears a place, or lets go there.",
      .law =
          "s = clamp((position − acts_from)/acts_over, 0, 1); x = 1 − s where it rests open, s where it "
          "rests "
          "closed; drop = (a·Q² + b·Q)/x²; shut it passes leakage·drop/rated_pressure; from B to A the check",
      .source = "opening even along the cam (common practice)",
      .beside = "cam from {acts_from}"};
  static constexpr std::array parameters{
      Parameter{.name = "acts_from",
                .quantity = Quantity::length,
                .low = -20.0,
                .high = 20.0,
                .meaning = "position of the moving part at which the cam begins to press the roller"},
      Parameter{.name = "acts_over",
                .quantity = Quantity::length,
                .low = 0.1 * si::mm,
                .high = 5.0,
                .meaning = "way of the cam from there to the full stroke of the roller"},
      Parameter{.name = "rest",
                .fallback = 0.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "what it is while no cam presses",
                .source = "the valve's datasheet",
                .words = rests},
      common::rated_flow_or_curve(),
      common::pressure_drop(),
      common::drop_curve(),
      common::measured_viscosity(),
      ReverseCheck::fitted_line(),
      common::cracking_pressure(0.5 * si::bar),
      common::leakage("flow past the shut valve at the rated pressure (350 bar if none is given)"),
      common::rated_pressure(),
      common::port_volume(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "inlet of the slowed direction"},
      Port{.name = "B", .meaning = "outlet of the slowed direction"},
      Port{.name = "cam", .domain = Domain::motion, .meaning = "the moving part that carries the cam"},
  };
  static constexpr std::array outputs{Output{"opening", Quantity::share, "share of full opening"}};
  static constexpr std::array faults{
      Fault{.name = "cam has shifted",
            .sentence = "The cam is loose or the roller worn: it slows too late and the load hits its stop.",
            .parameter = "acts_from",
            .change = Fault::Change::plus,
            .slight = 1 * si::mm,
            .grave = 20 * si::mm},
      Fault{.name = "does not shut tight",
            .sentence = "Wear at the spool: the motion creeps on past the end of the cam.",
            .parameter = "leakage",
            .change = Fault::Change::becomes,
            .slight = 20 * si::cm3_per_minute,
            .grave = 500 * si::cm3_per_minute,
            .comes = Comes::suddenly},
  };
  static constexpr std::array rules{
      Rule{.name = "slow before the end",
           .sentence = "A mass that meets its stop faster than 0.1 m/s wants slowing down: begin early "
                       "enough that the "
                       "pressure behind the closing valve stays below its ratings."},
      Rule{.name = "reverse past the cam",
           .sentence = "At the end of the cam the valve is shut: without a reverse check the way back begins "
                       "at a creep."},
  };
  static constexpr std::array care{upkeep::cam_and_roller};
  static constexpr auto sketch = [](double shift, bool closed, bool check, bool back) {
    using namespace stroke;
    using namespace pieces;
    Sketch s;
    s.add(line(2, -2, 2, 0), line(2, 4, 2, 6));
    const auto boxes = join(box(-4, 0, 0, 4), box(0, 0, 4, 4), line(-4, -0.5, 4, -0.5), line(-4, 4.5, 4, 4.5),
                            spring(4, 2, 6, 2), line(6, 1, 6, 3), line(-5.5, 1.5, -4, 1.5),
                            line(-5.5, 2.5, -4, 2.5), circle(-6, 2, 0.75));
    s.add(moved(boxes, shift, 0), line(-7, 0, -7, 4), path(-7, 2, shift - 7, 2));
    if (closed) {
      s.add(moved(join(shut_port(2, 0, 1), shut_port(2, 4, -1), arrow(-2, 0, -2, 4)), shift, 0));
    } else {
      s.add(moved(join(arrow(2, 0, 2, 4), arrow(-2, 0, -2, 4), restriction(-2, 2)), shift, 0));
    }
    if (check) s.add(check_down(12, 2, back), beside(12, -1, 5, -4.75));
    return s;
  };
  static constexpr auto symbol = sketch(0.0, false, false, false);
  static constexpr std::array anchors{Anchor{2, -2}, Anchor{2, 6}, Anchor{-7, 2}};
  static std::vector<Stroke> drawn(const Values& v, const Pose& pose) {
    const double pressed = pose.position.empty() ? 0.0 : pose.position[0] - v["acts_from"];
    const double share = pressed > 0.0 ? std::min(pressed / v["acts_over"], 1.0) : 0.0;
    const bool check = v.word("reverse_check") == 1;
    return pieces::strokes(sketch(4 * share, v.word("rest") == 1, check, check && pose.enters(1)));
  }
  static constexpr int oil_ports = 2, motion_ports = 1;

  double from, over;
  bool rests_open;
  Restriction open;
  ReverseCheck back;
  Leak leak;
  double volume;

  CamValve(const Values& v, const Oil& oil)
      : from(v["acts_from"]),
        over(v["acts_over"]),
        rests_open(v.word("rest") == 0),
        open(common::drop_of(v, oil)),
        back{v.word("reverse_check") == 1, common::CheckOpening(v["cracking_pressure"]), open},
        leak(Leak::at(v["leakage"], common::leakage_pressure(v))),
        volume(v["port_volume"]) {}

  static std::vector<Mismatch> check(const Values& v) {
    return v.word("reverse_check") == 1 ? common::check_opens_below_drop(v) : std::vector<Mismatch>{};
  }
  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }

  template <class T>
  T opening(const T& position) const {
    const T pressed = share_of_band(T(position - from), over);
    return rests_open ? T(1.0 - pressed) : pressed;
  }
  template <class T>
  Answer<CamValve, T> law(const Here<CamValve, T>& here) const {
    const auto& [in, out] = here.oil;
    const T drop = in.pressure - out.pressure;
    const T flow = open.flow(drop, opening(here.body[0].position)) + leak.flow(drop) - back.flow(T(-drop));
    Answer<CamValve, T> a;
    a.inflow[0] = mass_flow(flow, in, out);
    a.inflow[1] = -a.inflow[0];
    return a;
  }
  template <class H>
  std::array<double, 1> report(const H& here) const {
    return {opening(here.body[0].position)};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
