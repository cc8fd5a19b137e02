// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <set>
#include <span>
#include <string>
#include <string_view>
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

/// A line may be let off bit by bit, as a valve goes from one position to another; what an accumulator has
/// only runs out through a way that is open in one position.
enum class LetOff { bit_by_bit, in_one_position };

/// Whether people can let the pressure of a group off to a reservoir by hand: through what is open or can be
/// opened, checks only in their free direction, no valve that needs a pressure to open it.
bool can_be_let_off(const Sight& sight, int group, LetOff how = LetOff::bit_by_bit);

/// The first gauge that stands in the groups, or −1.
int gauge_in(const Sight& sight, const std::set<int>& groups);

/// "between 80.0 bar and 120 bar": full scales that put a reading at half to three quarters.
std::string fitting_scale(const Sight& sight, double reading);

/// The part alone between a gauge and its line (−1: none), and the line's side of it: a snubber, capillary,
/// needle or cock with nothing but gauges and pressure switches behind it.
struct BeforeGauge {
  int part = -1;
  PortOf line{};
};
BeforeGauge before_gauge(const Sight& sight, int gauge, std::span<const std::string_view> kinds);

/// The first gauge that shows the pressure of a port whatever is shut, but for the gauge's own cock; or −1.
int gauge_beside(const Sight& sight, PortOf at);

}  // namespace poise::rules
