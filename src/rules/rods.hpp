// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "rules/likewise.hpp"
#include "rules/sight.hpp"

namespace poise::rules {

/// Whether a part is a cylinder, single- or double-acting; all of them, in the job's order.
bool is_cylinder(const Sight& sight, int p);
std::vector<int> all_cylinders(const Sight& sight);

/// Area behind the piston of a cylinder of either kind and around its rod, m2; the latter 0 where no rod
/// diameter is given.
double area_behind(const Sight& sight, int cylinder);
double area_around_rod(const Sight& sight, int cylinder);
/// That of these which the oil at one of its ports presses on.
double area_of_side(const Sight& sight, PortOf side);

/// Areas that oil presses on, m2: behind the piston (or what clamps), around the rod (or what unclamps).
struct Faces {
  double a = 0.0, b = 0.0;
  double ratio() const { return a / b; }
};
/// Of a double-acting cylinder.
Faces faces(const Sight& sight, int cylinder);
/// Of the port A of a cylinder of either kind.
double face_at_a(const Sight& sight, int cylinder);
/// Whether oil at A pulls the rod in: a single-acting cylinder that pulls.
bool pulls(const Sight& sight, int cylinder);

/// What the loads on a rod weigh together, whatever cylinders share it.
struct RodLoad {
  int load = -1;        ///< the mass or rigid load that weighs most; −1: none
  double mass = 0.0;    ///< kg, the whole of that one
  double weight = 0.0;  ///< N along the rod, positive presses it in
  int cylinders = 0;    ///< that share the rod
};
RodLoad load_on(const Sight& sight, PortOf rod);
/// The force on a point of a rigid load in a run.
Course force_on_point(const Sight& sight, PortOf point);
/// The greatest force that a rigid load puts on one of its points at the end of a step, when the blows of
/// starting are over, or its even share where nothing was run, N.
double share_of_point(const Sight& sight, PortOf point);

/// A cylinder's share of the weight on its rod against its extension, N; below 0 where it pulls it out.
double weight_against(const Sight& sight, int cylinder);
/// Least and greatest of the outside forces on a rod against its extension over the whole cycle, N.
struct Span {
  double least = 0.0, greatest = 0.0;
};
Span forces_against(const Sight& sight, PortOf rod);
/// All that moves with a rod, kg.
double mass_moved(const Sight& sight, int cylinder);
/// Every value that a parameter takes in the cycle: the first one and those that steps and controls set.
std::vector<double> values_taken(const Sight& sight, int p, std::string_view parameter);

/// Whether pressure oil can get past a part from the pump to the work: lines, restrictions, directional
/// valves, checks, sequence and counterbalance valves.
bool can_feed(const PlannedPart& part);
/// Lines, checks and hose-burst valves.
bool through_lines_and_checks(const PlannedPart& part);
/// Highest pressure that the supply can bring to a port, by its relief valves with the pump's flow over them
/// and by a reducing valve in front of it; none where nothing limits it, or an intensifier raises it.
std::optional<double> feeding_pressure(const Sight& sight, PortOf at);
/// No-load flow of all pumps; 0 where one of them does not say.
double whole_pump_flow(const Sight& sight);
/// What a part passes at its stated drop, m3/s; 0 where it is not stated.
double rated_flow(const Sight& sight, int p);
/// Parts through which oil can leave a zone of lines: no lines, actuators, gauges, switches.
std::vector<int> exits(const Sight& sight, const std::set<int>& zone);

/// When a part did something first.
struct First {
  double time = 0.0;
  int part = -1;
};
/// Parts of a kind by the moment at which an output of theirs first passes a value, the latest first; those
/// that never come to it are left out.
std::vector<First> first_above(const Sight& sight, std::string_view kind, std::string_view output,
                               double threshold);

}  // namespace poise::rules
