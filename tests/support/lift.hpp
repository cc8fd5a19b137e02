// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A wagon body over several jacks, for tests. Invented data.
#pragma once

#include <string>

#include "support/trade.hpp"

namespace poise::workshop::lift {

struct Centre {
  double x, y;
};

inline constexpr double mass = 20e3, bore = 80 * si::mm, pump_flow = 4 * si::litre_per_minute;
inline constexpr double weight = mass * si::gravity;
inline const Points rectangle{{-3.0, -1.0}, {3.0, -1.0}, {3.0, 1.0}, {-3.0, 1.0}};

inline std::string numbered(const char* name, std::size_t k) { return name + std::to_string(k + 1); }

/// L1 over jacks C1, C2, …, each without dry friction, damped so that the load comes to rest on its oil.
inline void add_load(Bench& b, const Points& points, Centre centre, double start = 0.0) {
  b.part("L1", "rigid_load",
         {{"mass", mass}, {"centre_x", centre.x}, {"centre_y", centre.y}, {"guide_damping", 1e5}});
  b.points("L1", "points", points);
  for (std::size_t k = 0; k < points.size(); ++k) {
    const std::string jack = numbered("C", k);
    b.part(jack, "single_acting_cylinder",
           {{"bore", bore},
            {"stroke", 0.3},
            {"start_position", start},
            {"friction", 0.0},
            {"seal_friction", 0.0},
            {"damping", 2e4}});
    b.join({jack + ".rod", numbered("L1.point_", k)});
  }
}

/// Jacks open to the reservoir: the rods stand on their stops without oil under them.
inline void add_vents(Bench& b, std::size_t jacks) {
  b.part("T1", "reservoir", {{"usable_oil", 50 * si::litre}});
  for (std::size_t k = 0; k < jacks; ++k) b.join({"T1.T", numbered("C", k) + ".A"});
}

/// One pump behind a check, a hose from it to every jack.
inline void add_open_line(Bench& b, std::size_t jacks) {
  add_power_unit(b, pump_flow, {.cracking = 300 * si::bar, .rated_flow = 20 * si::litre_per_minute},
                 50 * si::litre);
  b.part("V2", "check", {{"rated_flow", 20 * si::litre_per_minute}});
  b.join({"P1.P", "V2.A"});
  for (std::size_t k = 0; k < jacks; ++k) {
    b.part(numbered("H", k), "hose", {{"bore", 10 * si::mm}, {"length", 3.0}});
    b.join({"V2.B", numbered("H", k) + ".A"});
    b.join({numbered("H", k) + ".B", numbered("C", k) + ".A"});
  }
}

/// A pump stage of its own for every jack, all alike: what keeps a lift level.
inline void add_equal_flows(Bench& b, std::size_t jacks) {
  b.part("T1", "reservoir", {{"usable_oil", 50 * si::litre}});
  for (std::size_t k = 0; k < jacks; ++k) {
    const std::string pump = numbered("P", k), relief = numbered("V", k);
    b.part(pump, "pump",
           {{"flow", pump_flow / 4}, {"volumetric_efficiency", 1.0}, {"rated_pressure", 400 * si::bar}});
    b.part(relief, "relief", {{"setting", 400 * si::bar}, {"rated_flow", 10 * si::litre_per_minute}});
    b.join({pump + ".P", relief + ".P", numbered("C", k) + ".A"});
    b.join({"T1.T", pump + ".S", relief + ".T"});
  }
}

}  // namespace poise::workshop::lift
