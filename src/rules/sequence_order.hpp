// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "rules/pressed.hpp"

namespace poise::rules {

/// Opening from which on a sequence valve counts as open.
inline constexpr double sequence_open_from = 0.01;
/// Tolerance of a setting, as a share (common practice).
inline constexpr double setting_tolerance = 0.03;

/// Where the pressure is felt that opens a sequence valve: its inlet, or its pilot from outside.
PortOf pilot_of(const Sight& sight, int valve);
/// The setting of a sequence or reducing valve, Pa.
double setting_of(const Sight& sight, int valve);

/// A sequence valve in a run, and the two groups that it parts.
struct Order {
  int valve = 0;
  std::vector<Driven> first, second;
  Course pilot, opening;
  double opens = 0.0;  ///< s; the end of the run where it never does
  double ends = 0.0;   ///< s, end of the step in which it opens
};
std::vector<Order> orders_of(const Sight& sight);
bool ever_opens(const Sight& sight, const Order& order);

}  // namespace poise::rules
