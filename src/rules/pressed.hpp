// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// How pressure spreads in a plan and what it moves: shared by the chapters on pressure valves.
#pragma once

#include <optional>
#include <set>
#include <vector>

#include "rules/likewise.hpp"
#include "rules/sight.hpp"

namespace poise::rules {

/// All groups that the pressure at one gets to undiminished while nothing flows: through lines and
/// restrictions, one-way parts in their direction, directional valves from P to their work ports, sequence
/// and counterbalance valves forwards. Not through actuators, reducing valves, or what leads to the
/// reservoir.
std::set<int> pressed_from(const Sight& sight, PortOf from);

/// As `pressed_from`, but only what no sequence and no directional valve stands before: the group of
/// actuators that is pressed first.
std::set<int> pressed_at_once(const Sight& sight, PortOf from);

/// As `pressed_from`, but not through checks, couplings, shut-offs or sequence valves.
std::set<int> pressed_unchecked(const Sight& sight, PortOf from);

/// Whether a part is a directional valve of any number of ports and positions.
bool is_directional(const PlannedPart& part);
/// Lines and filters, which nothing parts or shuts; for `Sight::reach`.
bool through_lines_and_filters(const PlannedPart& part);
/// Lines and restrictions that never shut, neither by themselves nor by a hand; for `Sight::reach`.
bool stays_open(const PlannedPart& part);

/// Relief valves with an open way to tank that limit the pressure at a port: it spreads there from their
/// inlets, and all pumps that press on the port are limited by them. The lowest first.
std::vector<Limit> guards_of(const Sight& sight, PortOf at);
/// Whether the pressure of all these pumps reaches a relief valve.
bool limits_all(const Sight& sight, int valve, const std::vector<int>& pumps);

/// Whether a part stands behind the tank port of a directional valve.
bool is_behind_a_valve(const Sight& sight, int p);

/// Intensifiers whose high side is in these groups.
std::vector<int> intensifiers_at(const Sight& sight, const std::set<int>& groups);

/// What ends the rise of pressure at a port while nothing flows there.
struct Ceiling {
  int part = -1;          ///< a relief valve, a pump with a compensator, or a reducing valve
  double pressure = 0.0;  ///< Pa, at which it cracks or to which it is set
};
/// The lowest of a relief valve, the compensators of all pumps that press on the port, and the reducing
/// valves where it gets its pressure through them alone; none where an intensifier presses on it.
std::optional<Ceiling> ceiling_of(const Sight& sight, PortOf at);

/// What a pump still delivers against a pressure, m3/s: of two stages what is left, of an unloaded pump none.
double delivery_at(const Sight& sight, int pump, double pressure);
/// No-load flow of all pumps together, m3/s; one that does not say counts for none.
double flow_of_all_pumps(const Sight& sight);
/// Pumps whose pressure reaches a port.
std::vector<int> pumps_of(const Sight& sight, PortOf at);
/// Those of them whose flow is not divided on the way.
std::vector<int> pumps_with_all_flow(const Sight& sight, PortOf at);

/// What these pumps send over a relief valve together as it cracks, m3/s.
double flow_over(const Sight& sight, const Limit& limit);

/// The pressure over a relief valve with a flow, Pa; and with that of all its pumps, up to its rated flow.
double pressure_over(const Sight& sight, const Limit& limit, double flow);
double full_flow_pressure(const Sight& sight, const Limit& limit);
/// The highest pressure that may come to a part with two ports, Pa: as seen in the run, or with the pumps'
/// flow over the relief valve that limits it, wherever that stands.
double highest_to_come(const Sight& sight, int p);

/// Whether no pump draws oil at a moment of the run.
bool pumps_rest(const Sight& sight, double time);

/// The actuators that oil in these groups drives, each motion once per port.
std::vector<Driven> driven_in(const Sight& sight, const std::set<int>& groups);

/// Whether a port belongs to a clamp or a work support.
bool is_clamp(const Sight& sight, int part);

/// Whether oil that these groups gave to an actuator gets out again without `valve`: by a check, a
/// directional valve, or another valve that opens that way.
bool leads_back(const Sight& sight, const std::set<int>& groups, int valve);

/// Oil of a hose or tube without pressure, m3.
double oil_of_line(const Sight& sight, int line);
/// What a hose takes by swelling, m3/Pa.
double give_of_hose(const Sight& sight, int hose);
/// What a hose or the wall of a tube takes, m3/Pa.
double give_of_line(const Sight& sight, int line);

/// How much warmer than when it was shut in the sun, a machine or the day makes oil, K, and what the room in
/// steel grows by, 1/K: thrice its linear expansion.
inline constexpr double warms_by = 20.0, steel_growth = 3.0 * 12e-6;

/// Oil in groups as the parts hold it at a moment of the run, and the give of their walls.
struct Room {
  double volume = 0.0;  ///< m3
  double give = 0.0;    ///< m3/Pa
};
Room room_of(const Sight& sight, const std::set<int>& groups, double time);

}  // namespace poise::rules
