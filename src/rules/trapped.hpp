// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <set>
#include <vector>

#include "rules/sight.hpp"

namespace poise::rules {

/// From here on pressure may stay in one line whatever the pumps do, Pa: 7 bar (100 psi), from which on a jet
/// of oil can go through skin.
inline constexpr double goes_through_skin = 7e5;

/// A line that a check keeps pressed when the pump stops.
struct HeldLine {
  int check = -1;
  std::set<int> zone;          ///< groups that have its pressure in some position of their valves
  std::vector<int> actuators;  ///< that it holds
  bool has_accumulator = false;
};

/// The lines with an actuator or accumulator behind checks of all kinds.
std::vector<HeldLine> held_lines(const Sight& sight);

/// Whether people can let the pressure of a group off to a reservoir by hand: through what is open or can be
/// opened, checks only in their free direction, no valve that needs a pressure to open it.
bool can_be_let_off(const Sight& sight, int group);

/// The first gauge that stands in the groups, or −1.
int gauge_in(const Sight& sight, const std::set<int>& groups);

}  // namespace poise::rules
