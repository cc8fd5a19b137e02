// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <cmath>

#include "parts/adjust.hpp"
#include "parts/drive_care.hpp"
#include "parts/piston.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// The gas of an accumulator, by the volume of oil that has pressed it together: (p + p_atm)·V^n = const.
struct Cushion {
  double volume;    ///< without oil, m3
  double absolute;  ///< pressure without oil, Pa absolute
  double exponent;
  double least;  ///< below this volume the law goes straight on, so that no step passes through zero, m3

  struct Pressure {
    double value, slope;  ///< gauge, Pa; Pa per m3 of oil
  };
  Pressure look(double oil) const;
  template <class T>
  T pressure(const T& oil) const {
    const Pressure here = look(value_of(oil));
    return with_slope(oil, here.value, here.slope);
  }
  /// Energy given to it from empty of oil on, against the atmosphere outside, J.
  double stored(double oil) const;
};

/// Area of the separator in the model: its stroke is the gas volume over it. Any area gives the same
/// pressures.
inline double separator_area(double gas_volume) { return std::pow(gas_volume, 2.0 / 3.0); }

/// Gas-loaded accumulator. Its separator is an inner body: oil volume over an equivalent area is where it
/// stands.
struct Accumulator : RoomDefaults {
  static constexpr std::array<std::string_view, 2> separators{"bladder", "piston"};
  static constexpr About about{
      .kind = "accumulator",
      .sentence = "Gas-loaded accumulator: takes oil above its precharge and gives it back.",
      .law =
          "(p_gas + p_atm)·V_gas^n = (precharge + p_atm)·gas_volume^n, V_gas = gas_volume − oil volume; "
          "moving_mass · "
          "dv/dt = (p_A − p_gas − neck drop − friction)·area, area = gas_volume^(2/3); metal stops where it "
          "is empty "
          "of oil and at least_gas",
      .source =
          "polytropic gas law; isothermal n = 1, adiabatic n = 1.4: J. Sullivan, Fluid Power: Theory and "
          "Applications, 4th ed., examples 12.4 and 12.5 (check values AC-03, AC-04)",
      .beside = "{gas_volume}\ngas {precharge}\n[max {rated_pressure}]"};
  static constexpr std::array parameters{
      Parameter{.name = "separator",
                .fallback = 0.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "what parts gas and oil: a bladder (or diaphragm), or a piston, which rubs",
                .words = separators},
      Parameter{.name = "gas_volume",
                .quantity = Quantity::volume,
                .low = 5 * si::cm3,
                .high = 500 * si::litre,
                .meaning = "gas without oil in it: the accumulator's effective size",
                .source = "the accumulator's datasheet; 0.02 to 50 L common practice"},
      Parameter{.name = "precharge",
                .quantity = Quantity::pressure,
                .low = 0.0,
                .high = 700 * si::bar,
                .meaning = "gas pressure without oil, at precharge_temperature",
                .adjusted = true,
                .tolerance = 0.05},
      Parameter{
          .name = "precharge_temperature",
          .quantity = Quantity::temperature,
          .low = si::zero_celsius - 40.0,
          .high = si::zero_celsius + 120.0,
          .meaning =
              "temperature of the gas as it was charged: at work it is as warm as the oil, its absolute "
              "pressure in proportion; left out, it was charged at working temperature",
          .source = "gas law at constant volume: Sullivan, example 15.3 (check value AC-07)",
          .optional = true},
      Parameter{.name = "exponent",
                .fallback = 1.2,
                .low = 1.0,
                .high = 1.4,
                .meaning = "polytropic exponent n: 1 for minutes, 1.4 for a second or less",
                .source = "default common practice"},
      Parameter{.name = "least_gas",
                .quantity = Quantity::share,
                .fallback = 0.1,
                .low = 0.02,
                .high = 0.9,
                .meaning = "share of the gas volume at which the separator can go no further",
                .source = "a bladder is let down to a quarter, common practice; the end is metal"},
      Parameter{.name = "rated_flow",
                .quantity = Quantity::flow,
                .low = 10 * si::cm3_per_minute,
                .high = 10000 * si::litre_per_minute,
                .meaning = "highest flow through the neck; left out, its gas volume in one second",
                .source = "the accumulator's datasheet",
                .optional = true},
      Parameter{.name = "pressure_drop",
                .quantity = Quantity::pressure,
                .fallback = 2 * si::bar,
                .low = 0.05 * si::bar,
                .high = 200 * si::bar,
                .meaning = "pressure drop through the neck at rated_flow",
                .source = "the accumulator's datasheet; default common practice"},
      Parameter{.name = "friction",
                .quantity = Quantity::pressure,
                .fallback = 1.5 * si::bar,
                .low = 0.0,
                .high = 20 * si::bar,
                .meaning = "pressure difference that moves the piston; a bladder has none",
                .source = "the accumulator's datasheet; default common practice",
                .tolerance = common::friction_of_seals},
      Parameter{.name = "moving_mass",
                .quantity = Quantity::mass,
                .fallback = 0.5,
                .low = 0.01,
                .high = 1e4,
                .meaning = "mass of the piston, or of what moves with the bladder"},
      Parameter{
          .name = "dead_volume",
          .quantity = Quantity::volume,
          .low = 0.5 * si::cm3,
          .high = 50 * si::litre,
          .meaning = "oil in the neck when it is empty; left out, 20 cm3 or a fiftieth of the gas volume",
          .optional = true},
      common::rated_pressure(),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "oil"},
      Port{.name = "gas",
           .domain = Domain::motion,
           .meaning = "the separator: positive as oil comes in; stays free",
           .may_stay_free = true},
  };
  static constexpr std::array outputs{
      Output{"gas_pressure", Quantity::pressure, "gauge pressure of the gas"},
      Output{"gas_volume", Quantity::volume, "volume of the gas"},
      Output{"oil_volume", Quantity::volume, "oil that it holds and can give back"},
  };
  static constexpr std::array happenings{Happening{"is empty of oil"},
                                         Happening{"has its gas pressed to the least"}};
  static constexpr std::array faults{
      Fault{
          .name = "gas is lost",
          .sentence =
              "the pump cycles more often and the pressure falls fast after it stops; at the start the gauge "
              "jumps only to the low precharge",
          .parameter = "precharge",
          .slight = 0.9,
          .grave = 0.1,
          .source = "articles on accumulators, read in excerpts"},
      Fault{.name = "over-charged",
            .sentence =
                "it takes oil only near the top pressure, gives almost none back and knocks on its stop",
            .parameter = "precharge",
            .slight = 1.1,
            .grave = 1.6,
            .source = "accumulator article, read in excerpts",
            .comes = Comes::after_work},
      Fault{.name = "bladder has burst",
            .sentence = "no cushion, foam in the oil, oil at the gas valve",
            .parameter = "precharge",
            .change = Fault::Change::becomes,
            .slight = 0.0,
            .grave = 0.0,
            .comes = Comes::suddenly},
  };
  static constexpr std::array rules{

      Rule{.name = "nitrogen only",
           .sentence = "Charge with dry nitrogen only, cut off and drained of oil: oxygen or air explodes.",
           .source = "charging instruction, read in excerpts"},
      Rule{
          .name = "quick check of the precharge",
          .sentence =
              "At the start the gauge jumps to the precharge and then climbs; after the stop it falls slowly "
              "to it and then drops.",
          .source = "maintenance note, read in excerpts"},
  };
  static constexpr std::array adjusting{adjust::precharge};
  static constexpr std::array care{upkeep::precharge_read, upkeep::vessel_law};
  static constexpr auto sketch = [](bool piston, double oil) {
    using namespace stroke;
    using namespace pieces;
    const double y = 2.5 + 3.5 * oil;
    Sketch s;
    s.add(arc(2, 2, 2, 90), arc(2, 6, 2, -90), line(0, 2, 0, 6), line(4, 2, 4, 6), line(2, -1, 2, 0),
          line(0, y, 4, y), stroke::open(2, y + 0.5, 1, -90));
    if (piston) s.add(line(0, y - 0.5, 4, y - 0.5));
    return s;
  };
  static constexpr auto symbol = sketch(false, 0.5);
  static constexpr std::array anchors{Anchor{2, -1}, Anchor{4, 4}};
  static std::vector<Stroke> drawn(const Values& v, const Pose& pose) {
    const double stroke = (1.0 - v["least_gas"]) * v["gas_volume"] / separator_area(v["gas_volume"]);
    return pieces::strokes(sketch(v.word("separator") == 1, pose.share(0, stroke, 0.5)));
  }
  static constexpr int oil_ports = 1, motion_ports = 1;

  Cushion gas;
  double area, mass, dead, rub_force;
  Restriction neck;
  Piston separator;

  Accumulator(const Values& v, const Oil&);
  static std::vector<Mismatch> check(const Values& v);

  template <class T>
  T neck_drop(const T& flow) const {
    return (neck.b + neck.a * magnitude(flow)) * flow;
  }
  template <class T>
  Answer<Accumulator, T> law(const Here<Accumulator, T>& here) const {
    const MotionHere<T>& body = here.body[0];
    const T flow = area * body.speed;
    const T drop = neck_drop(flow), rub = rubbing(T(rub_force), body.speed, separator.creep_speed, 0.0);
    Answer<Accumulator, T> a;
    a.force[0] = (here.oil[0].pressure - gas.pressure(T(area * body.position)) - drop) * area - rub +
                 separator.ends(body);
    const auto at = values_of(body);
    a.friction = value_of(drop) * value_of(flow) + value_of(rub) * at.speed + separator.stop_heat(at);
    return a;
  }
  template <class H>
  std::array<double, 3> report(const H& here) const {
    const double oil = area * here.body[0].position;
    return {gas.look(oil).value, gas.volume - oil, std::max(oil, 0.0)};
  }
  template <class H>
  std::array<double, 2> passing(const H& here) const {
    return {-here.body[0].position, here.body[0].position - separator.stroke};
  }
  template <class H>
  double stored(const H& here) const {
    return gas.stored(area * here.body[0].position) + separator.stored(here.body[0].position);
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = dead, .swept = {area}}; }
  Body body(int) const { return {.mass = mass, .start = 0.0}; }
};

}  // namespace poise
