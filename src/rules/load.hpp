// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <vector>

#include "rules/likewise.hpp"
#include "rules/sight.hpp"

namespace poise::rules {

/// A weight that the oil of one cylinder carries.
struct HeldLoad {
  int cylinder = 0;
  PortOf side;                     ///< where the oil is that carries it
  bool hanging = false;            ///< it pulls the rod out of the cylinder, rather than pressing it in
  double area = 0.0;               ///< m2 of that side
  int load = 0;                    ///< the mass or rigid load
  double mass = 0.0;               ///< kg, of the whole load
  double weight = 0.0;             ///< N along the rod, this cylinder's share
  double least = 0.0, most = 0.0;  ///< N, with the forces that steps put on the rod in the same direction
};

/// From this weight on a load counts, N: 25 kg, which hurts (common practice).
inline constexpr double counts_from = 250.0;

/// Masses and rigid loads that hang on a cylinder's oil, one entry per cylinder.
std::vector<HeldLoad> held_loads(const Sight& sight);

/// Area of the port B of a cylinder, m2; 0 where there is none.
double area_b(const Sight& sight, int cylinder);
/// Area behind the piston over that around the rod; 0 of a single-acting cylinder.
double area_ratio(const Sight& sight, int cylinder);
/// The side of a double-acting cylinder that does not carry the load.
std::optional<PortOf> other_side(const Sight& sight, const HeldLoad& load);
/// Whether that side is the pilot X of a valve that holds the load.
bool is_piloted_by_other_side(const Sight& sight, const HeldLoad& load, int valve);

/// Valves of a kind whose port of that name is open to a place through lines and restrictions.
std::vector<int> valves_at(const Sight& sight, PortOf place, std::string_view kind, std::string_view port);

/// Lines and flow dividers, for `Sight::reach`: what oil passes with its flow told, not throttled.
bool through_dividers(const PlannedPart& part);

/// Where oil goes on behind a valve's port on its way to tank: lines and restrictions to the reservoir or to
/// directional valves, and what is behind the tank port of these.
std::set<int> way_to_tank(const Sight& sight, PortOf from);
/// Parts in these groups that throttle: needles, flow controls, filters, couplings, capillaries.
std::vector<int> throttles_in(const Sight& sight, const std::set<int>& groups);

/// The pressure that the pumps' relief valves leave, Pa: where they crack, and with the whole flow over them.
struct Supply {
  double cracking = 0.0, full = 0.0;
  int valve = -1;
};
std::optional<Supply> supply(const Sight& sight);

/// A way from a place to a reservoir with everything at rest and nothing energised.
struct WayOut {
  int shut = 0;             ///< valves on it that stand shut, as few as can be
  std::vector<int> valves;  ///< those, from the place on
};
/// Whether the shut ports of a spool with three or four ports count as a valve that stands shut.
enum class Spools { hold, leak };
/// None where only valves that never let oil that way are between.
std::optional<WayOut> way_out(const Sight& sight, PortOf from, Spools spools = Spools::hold);

/// A step in which a load stands still, raised, with its weight on the oil.
struct Rest {
  const StepSpan* span = nullptr;
  double height = 0.0;    ///< m that it can sink
  double pressure = 0.0;  ///< Pa at the side that carries it, at the step's end
  double lasts() const { return span->end - span->begin; }
};
std::vector<Rest> rests(const Sight& sight, const HeldLoad& load);

/// Oil on one side of a cylinder with its lines at a moment of the run: volume, m3, and the work that is in
/// it and in what swells around it, J.
struct Trapped {
  double volume = 0.0, energy = 0.0;
};
Trapped trapped(const Sight& sight, PortOf side, double moment);

}  // namespace poise::rules
