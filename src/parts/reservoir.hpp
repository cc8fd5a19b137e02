// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"

namespace poise {

/// Reservoir: a free surface at atmospheric pressure. When its usable oil is gone, what leaves it fades to
/// nothing.
struct Reservoir : RoomDefaults {
  static constexpr About about{
      .kind = "reservoir",
      .sentence = "Holds the oil that is not in the circuit, at atmospheric pressure.",
      .law = "p_T = 0; the density of what is drawn falls to 0 over the last 5 % of the usable oil",
      .source = "physics of a free surface; the fade is our own, so that a pump runs dry without a jump"};
  static constexpr std::array parameters{
      Parameter{.name = "usable_oil",
                .quantity = Quantity::volume,
                .low = 1 * si::cm3,
                .high = 10.0,
                .meaning = "oil that can be drawn before the pump sucks air",
                .source = "the reservoir's datasheet"},
  };
  static constexpr std::array ports{
      Port{.name = "T", .meaning = "suction, return and drain lines: as many as wanted"},
  };
  static constexpr int oil_ports = 1;

  double usable;

  Reservoir(const Values& v, const Oil&) : usable(v["usable_oil"]) {}

  template <class T>
  Answer<Reservoir, T> law(const Here<Reservoir, T>&) const {
    return {};
  }
  Space space(int) const { return {.volume = usable}; }
  FreeSurface free_surface() const { return {.usable = usable, .band = 0.05 * usable}; }
};

}  // namespace poise
