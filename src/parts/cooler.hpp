// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/line_care.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Cooler: a restriction to the oil. A run at one oil temperature takes no heat out of it; the
/// study of warming up does.
struct Cooler : RoomDefaults {
  static constexpr About about{
      .kind = "cooler",
      .sentence = "Cooler: carries heat off to air or water, and resists the flow.",
      .law =
          "drop = a·Q² + b·Q; heat = conductance·(oil temperature − coolant_temperature), counted where the "
          "oil's temperature is followed",
      .source = "a restriction; heat by one conductance (e.g. kW per kelvin of its datasheet)",
      .role = Role::line,
      .beside = "{conductance}"};
  static constexpr std::array parameters{
      common::rated_flow_or_curve(),
      common::pressure_drop(0.5 * si::bar),
      common::drop_curve(),
      common::measured_viscosity(),
      Parameter{.name = "conductance",
                .quantity = Quantity::conductance,
                .low = 0.1,
                .high = 1e6,
                .meaning = "heat it carries off per difference between oil and coolant",
                .source = "the cooler's datasheet"},
      Parameter{.name = "coolant_temperature",
                .quantity = Quantity::temperature,
                .fallback = si::zero_celsius + 20.0,
                .low = si::zero_celsius - 40.0,
                .high = si::zero_celsius + 90.0,
                .meaning = "temperature of the air or water that cools"},
      common::rated_pressure(),
      common::port_volume(200 * si::cm3),
  };
  static constexpr std::array ports{
      Port{.name = "A", .meaning = "hot side"},
      Port{.name = "B", .meaning = "cooled side"},
  };
  static constexpr std::array faults{
      Fault{.name = "fins clogged or water off",
            .sentence =
                "It carries hardly any heat off: hot and thin oil after an hour, with all that follows.",
            .parameter = "conductance",
            .change = Fault::Change::times,
            .slight = 0.2,
            .grave = 0.01},
      Fault{.name = "tubes are blocked",
            .sentence = "Its drop is high: the back pressure in the tank line rises.",
            .parameter = "pressure_drop",
            .change = Fault::Change::times,
            .slight = 3.0,
            .grave = 30.0},
  };
  static constexpr std::array rules{

      Rule{.name = "cooler in the tank line",
           .sentence =
               "A cooler stands low pressure only: give it a bypass for cold oil and for the amplified "
               "return flow of cylinders."},
  };
  static constexpr std::array care{upkeep::cooler_clean, upkeep::joint_dry};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(diamond(), arrow(0.75, 0, 4.25, 0), arrow(-0.75, 0, -4.25, 0));
  }();
  static constexpr std::array anchors{Anchor{0, -4}, Anchor{0, 4}};
  static constexpr int oil_ports = 2;

  Restriction open;
  double volume;

  Cooler(const Values& v, const Oil& oil) : open(common::drop_of(v, oil)), volume(v["port_volume"]) {}

  static HeatPath heat_path(const Values& v) {
    return {.conductance = v["conductance"], .surroundings = v["coolant_temperature"]};
  }
  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }

  template <class T>
  Answer<Cooler, T> law(const Here<Cooler, T>& here) const {
    const T drop = here.oil[0].pressure - here.oil[1].pressure;
    Answer<Cooler, T> a;
    a.inflow[0] = mass_flow(open.flow(drop, T(1.0)), here.oil[0], here.oil[1]);
    a.inflow[1] = -a.inflow[0];
    return a;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = volume}; }
};

}  // namespace poise
