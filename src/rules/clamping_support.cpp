// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Work supports.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "rules/chapters.hpp"
#include "rules/rods.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 2> supports{"work_support", "swing_clamp"};
constexpr std::array<std::string_view, 1> support_alone{"work_support"};
/// Where a support is weakest against a clamp: the moment with the least capacity over clamp force.
struct Held {
  double ratio = 1e9, capacity = 0.0, force = 0.0, time = 0.0;
  int clamp = -1;
};

Held weakest_moment(const Sight& sight, int support, int clamp) {
  const Course capacity = sight.output(support, "capacity"), force = sight.output(clamp, "clamp_force");
  Held held{.clamp = clamp};
  const double most = force.highest().value;
  for (std::size_t row = 0; row < force.time().size(); ++row) {
    // What it presses with on the way up and down is of no account.
    if (force.value()[row] < 0.5 * most || most <= 1.0) continue;
    const double ratio = capacity.value()[row] / force.value()[row];
    if (ratio < held.ratio)
      held = {ratio, capacity.value()[row], force.value()[row], force.time()[row], clamp};
  }
  return held;
}

void look_at_capacity(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int s : sight.all({"work_support"})) {
    if (!sight.output(s, "capacity")) continue;
    // Which clamp stands over it is not said: only where it is too weak for each of them is it said to be.
    Held best{.ratio = -1.0};
    for (int k : sight.all({"swing_clamp"})) {
      if (!sight.output(k, "clamp_force") || sight.output(k, "clamp_force").highest().value <= 1.0) continue;
      const Held held = weakest_moment(sight, s, k);
      if (held.ratio > best.ratio) best = held;
    }
    if (best.clamp < 0 || best.ratio >= 2.0) continue;
    const double pressure = sight.pressure({s, 0}).at(best.time);
    report.add(
        s,
        fmt::format("{} holds {} at its {} {}, and the clamp over it presses {} ({}): {:.2f} times, where "
                    "2 times is asked",
                    sight.tag(s), sight.say(best.capacity, Quantity::force),
                    sight.say(pressure, Quantity::pressure), sight.when(best.time),
                    sight.say(best.force, Quantity::force), sight.tag(best.clamp), best.ratio),
        fmt::format("Take a support that holds {} at {}, or press with {} at most",
                    sight.say(2.0 * best.force, Quantity::force), sight.say(pressure, Quantity::pressure),
                    sight.say(0.5 * best.capacity, Quantity::force)),
        best.time);
  }
}

void look_at_order(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  const auto locks = first_above(sight, "work_support", "capacity", 1.0);
  const auto touches = first_above(sight, "swing_clamp", "clamp_force", 1.0);
  if (touches.empty()) return;
  // The latest support against the latest clamp and so on: if there is any way of pairing them in which each
  // support is locked before its clamp touches, this is one.
  for (std::size_t i = 0; i < locks.size(); ++i) {
    const First& clamp = touches[std::min(i, touches.size() - 1)];
    if (locks[i].time <= clamp.time) continue;
    const int s = locks[i].part;
    report.add(s,
               fmt::format("{} is locked at {}, and {} touches at {} already, with {} in the support",
                           sight.tag(s), sight.say(locks[i].time, Quantity::time), sight.tag(clamp.part),
                           sight.say(clamp.time, Quantity::time),
                           sight.say(sight.pressure({s, 0}).at(clamp.time), Quantity::pressure)),
               fmt::format("Let a sequence valve open the clamps' line only above {}",
                           sight.say(1.5 * sight.pressure({s, 0}).at(locks[i].time), Quantity::pressure)),
               clamp.time);
    return;
  }
}

void look_at_locking_in_the_air(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (const First& lock : first_above(sight, "work_support", "capacity", 1.0)) {
    const Course touch = sight.output(lock.part, "touch_force");
    if (!touch || touch.at(lock.time) > 0.0) continue;
    const double up = sight.position(lock.part, 0).at(lock.time);
    report.add(
        lock.part,
        fmt::format("{} is locked {} with its plunger {} up, and the workpiece is {} above it: it holds "
                    "in the air",
                    sight.tag(lock.part), sight.when(lock.time), sight.say(up, Quantity::length),
                    sight.say(std::max(0.0, sight.values(lock.part)["gap"] - up), Quantity::length)),
        fmt::format("Feed it slowly enough to be up before its line reaches {}, and see that its stroke "
                    "is longer than {}",
                    sight.say(sight.pressure({lock.part, 0}).at(lock.time), Quantity::pressure),
                    sight.say(sight.values(lock.part)["gap"], Quantity::length)),
        lock.time);
  }
}

constexpr std::array rules{
    TradeRule{.name = "support holds twice the clamp",
              .harm = Harm::damages,
              .holds =
                  "At the pressure that it has then, a work support holds at least 2 times what the clamp "
                  "over it presses.",
              .otherwise = "The plunger is pushed down and the part is cut bent.",
              .remedy = "A larger support, more pressure in it, or less in the clamp.",
              .source = "workholding design page",
              .kinds = supports,
              .look = look_at_capacity},
    TradeRule{.name = "support locks before the clamp",
              .harm = Harm::damages,
              .holds = "When a clamp touches, the work support under it has its locking pressure.",
              .otherwise = "The clamp outruns the support, pushes it down and bends the part.",
              .remedy = "A sequence valve in front of the clamps.",
              .source = "workholding design page",
              .kinds = supports,
              .look = look_at_order},
    TradeRule{.name = "support touches before it locks",
              .harm = Harm::damages,
              .holds = "The plunger of a work support touches the workpiece before its pressure locks it.",
              .otherwise = "It holds in the air, and the part bends down to it.",
              .remedy = "Less flow into the support, or a shorter gap.",
              .kinds = support_alone,
              .look = look_at_locking_in_the_air},
};

}  // namespace

std::span<const TradeRule> clamping_support_rules() { return rules; }

}  // namespace poise::rules
