// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "compose/circuits_making.hpp"

namespace poise::compose {

/// A building block of the trade. The blocks are put into a circuit in the order of the registry
/// (circuits_blocks.cpp): from what moves back to the pump. A new one is a function and its line there.
struct Block {
  std::string_view name;
  /// The ways in which it can be made for what is wanted, in a few words each; the plainest first. Where
  /// there is only one, it may be empty.
  std::vector<std::string_view> (*ways)(const Wanted&);
  /// Puts it in wherever it is asked for.
  void (*put)(Making&, int way);
};
std::span<const Block> blocks();

void block_order(Making& making, int way);
void block_lock(Making& making, int way);
void block_meter(Making& making, int way);
void block_hold(Making& making, int way);
void block_level(Making& making, int way);
void block_reduce(Making& making, int way);
void block_sequence(Making& making, int way);
void block_keep(Making& making, int way);
void block_let_off(Making& making, int way);
void block_idle(Making& making, int way);
void block_direct(Making& making, int way);
void block_isolate(Making& making, int way);
void block_supply(Making& making, int way);

/// Ways of "hold": how a load is kept up.
enum class Hold { pilot_check, counterbalance, check_and_lowering };
/// Ways of "keep": how what presses keeps its pressure.
enum class Keep { pilot_check, pump, check, accumulator };
std::vector<Keep> keeps_of(const Wanted& wanted);
Keep keep_of(const Making& making);

bool any_lifts(const Wanted& wanted);
bool any_presses(const Wanted& wanted);
/// Whether what a group presses together is enough to strike as it is let go.
bool must_be_let_off(const Wanted& wanted, const Group& group);

/// A throttle for one direction of flow on the line of an end: what comes from the actuator, or what goes to
/// it. The port on its other side.
enum class Metered { coming_back, going_out };
std::string meter_at(Making& making, const std::string& end, Metered metered, double flow, double drop,
                     std::string sentence);

/// The speed at which a load is let down: between what is asked for and what is allowed, m/s.
double lowering_speed(const Actuator& a);

/// Whether two choices, by place in the registry, go together.
bool goes_together(const Wanted& wanted, const std::vector<int>& ways);

}  // namespace poise::compose
