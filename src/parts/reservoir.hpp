// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/drive_care.hpp"
#include "parts/symbol_pieces.hpp"

namespace poise {

/// Reservoir: a free surface at atmospheric pressure. When its usable oil is gone, what leaves it fades to
/// nothing.
struct Reservoir : RoomDefaults {
  static constexpr About about{
      .kind = "reservoir",
      .sentence = "Holds the oil that is not in the circuit, at atmospheric pressure.",
      .law = "p_T = 0; the density of what is drawn falls to 0 over the last 5 % of the usable oil",
      .source = "physics of a free surface; the fade is our own, so that a pump runs dry without a jump",
      .role = Role::reservoir,
      .beside = "{usable_oil}\n[{oil}]"};
  static constexpr std::array parameters{
      Parameter{.name = "usable_oil",
                .quantity = Quantity::volume,
                .low = 1 * si::cm3,
                .high = 10.0,
                .meaning = "oil that can be drawn before the pump sucks air",
                .source = "the reservoir's datasheet"},
      Parameter{
          .name = "surface",
          .quantity = Quantity::area,
          .low = 1 * si::cm2,
          .high = 100.0,
          .meaning =
              "walls that the oil wets and air gets to; left out, five sides of a cube of the usable oil",
          .optional = true},
      Parameter{.name = "surroundings",
                .quantity = Quantity::temperature,
                .fallback = si::zero_celsius + 20.0,
                .low = si::zero_celsius - 40.0,
                .high = si::zero_celsius + 60.0,
                .meaning = "temperature of the air around the machine, for the warm-up"},
      Parameter{
          .name = "steel",
          .quantity = Quantity::mass,
          .low = 0.0,
          .high = 20000.0,
          .meaning =
              "steel that gets as warm as the oil: tank, block, actuators; left out, 3 mm of the surface",
          .optional = true},
      Parameter{.name = "oil_over_suction",
                .quantity = Quantity::length,
                .low = 0.0,
                .high = 5.0,
                .meaning =
                    "height of the oil over the suction opening or strainer as the job begins; left out, it "
                    "is not watched",
                .source = "the reservoir's drawing",
                .optional = true},
      Parameter{.name = "air_space",
                .quantity = Quantity::volume,
                .low = 0.0,
                .high = 10.0,
                .meaning = "room over the oil as the job begins; left out, it is not watched",
                .source = "the reservoir's drawing",
                .optional = true},
  };
  static constexpr std::array ports{
      Port{.name = "T", .meaning = "suction, return and drain lines: as many as wanted"},
  };
  static constexpr std::array faults{
      Fault{
          .name = "low level",
          .sentence = "Oil is missing: motions stop near the end of the stroke, then the pump sucks air.",
          .parameter = "usable_oil",
          .change = Fault::Change::times,
          .slight = 0.8,
          .grave = 0.4,
          .source = "troubleshooting steps (strainer covered); pump symptoms article; sizes common practice"},
  };
  static constexpr std::array rules{

      Rule{
          .name = "air space",
          .sentence =
              "10 to 15 % of air beside the oil that returns, and a breather for the amplified return flow."},

      Rule{.name = "new oil is dirty",
           .sentence = "Fill through a filter.",
           .source = "commissioning article of a lubrication magazine"},
  };
  static constexpr std::array care{upkeep::oil_level, upkeep::oil_temperature, upkeep::breather,
                                   upkeep::oil_sample, upkeep::oil_change};
  static constexpr auto symbol = [] {
    using namespace stroke;
    using namespace pieces;
    return join(path(0, 2, 0, 0, 6, 0, 6, 2), line(3, 3, 3, 0.5), line(0, 1.25, 2.25, 1.25),
                line(3.75, 1.25, 6, 1.25));
  }();
  static constexpr std::array anchors{Anchor{3, 3}};
  static constexpr int oil_ports = 1;
  /// Heat from a still wall to still air: 2 Btu/(h·ft²·°F), W/(m2·K) (common rule of heat balances of power
  /// units).
  static constexpr double wall_heat_transfer = 11.4;
  static constexpr double steel_density = 7850.0, steel_heat_capacity = 480.0;  // from memory
  static constexpr double sheet = 3 * si::mm;

  double usable;

  /// Surface as stated, else five sides of a cube, m2.
  static double surface_of(const Values& v) {
    return v.given("surface") ? v["surface"] : 5.0 * std::pow(v["usable_oil"], 2.0 / 3.0);
  }
  static HeatPath heat_path(const Values& v) {
    const double surface = surface_of(v);
    const double steel = v.given("steel") ? v["steel"] : surface * sheet * steel_density;
    return {.conductance = wall_heat_transfer * surface,
            .surroundings = v["surroundings"],
            .capacity = steel * steel_heat_capacity};
  }

  Reservoir(const Values& v, const Oil&) : usable(v["usable_oil"]) {}

  template <class T>
  Answer<Reservoir, T> law(const Here<Reservoir, T>&) const {
    return {};
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);
  Space space(int) const { return {.volume = usable}; }
  FreeSurface free_surface() const { return {.usable = usable, .band = 0.05 * usable}; }
};

}  // namespace poise
