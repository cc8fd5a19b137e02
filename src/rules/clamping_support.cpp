// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Work supports.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "rules/alike.hpp"
#include "rules/chapters.hpp"
#include "rules/rods.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 2> supports{"work_support", "swing_clamp"};
constexpr std::array<std::string_view, 1> support_alone{"work_support"};
/// A clamp at the moments that count: its hardest blow, and the ends of the steps in which it stays shut.
/// While it is let off its force falls beside the support's pressure, and that says nothing.
struct Pressing {
  int clamp = -1;
  std::vector<Peak> force;
};

std::vector<Pressing> pressing_clamps(const Sight& sight) {
  std::vector<Pressing> all;
  for (int k : sight.all({"swing_clamp"})) {
    const Course force = sight.output(k, "clamp_force");
    const Peak most = force.highest();
    if (most.value <= 1.0) continue;
    Pressing pressing{k, {most}};
    for (const StepSpan& span : sight.spans()) {
      const double then = force.at(span.end);
      if (then >= 0.9 * most.value) pressing.force.push_back({then, span.end});
    }
    all.push_back(std::move(pressing));
  }
  return all;
}

/// A support at the moment with the least capacity over clamp force.
struct Held {
  double ratio = -1.0, capacity = 0.0, force = 0.0, time = 0.0;
  int clamp = -1;
};

/// The clamp that leaves a support the most room, at its weakest moment with it. Which clamp stands over it
/// is not said: only where it is too weak for each of them is it said to be.
Held best_held(const Course& capacity, const std::vector<Pressing>& clamps) {
  Held best;
  for (const Pressing& pressing : clamps) {
    Held held{.clamp = -1};
    for (const Peak& force : pressing.force) {
      const double holds = capacity.at(force.time), ratio = holds / force.value;
      if (held.clamp < 0 || ratio < held.ratio)
        held = {ratio, holds, force.value, force.time, pressing.clamp};
    }
    if (held.ratio > best.ratio) best = held;
  }
  return best;
}

void look_at_capacity(const Sight& sight, Report& report) {
  if (!sight.ran() || sight.all({"work_support"}).empty()) return;
  Alike<Held> weak;
  const auto clamps = pressing_clamps(sight);
  for (int s : sight.all({"work_support"})) {
    const Course capacity = sight.output(s, "capacity");
    if (!capacity) continue;
    const Held held = best_held(capacity, clamps);
    if (held.clamp >= 0 && held.ratio < 2.0) weak.add(held, s, -held.ratio);
  }
  if (!weak) return;
  const int weakest = weak.part();
  const Held& worst = weak.worst();
  const std::string pressure = sight.say(sight.pressure({weakest, 0}).at(worst.time), Quantity::pressure);
  report.add(
      weakest,
      fmt::format("{} holds {} at its {} {}, and the clamp over it presses {} ({}): {:.2f} times, where 2 "
                  "times is asked{}",
                  sight.tag(weakest), sight.say(worst.capacity, Quantity::force), pressure,
                  sight.when(worst.time), sight.say(worst.force, Quantity::force), sight.tag(worst.clamp),
                  worst.ratio, weak.others(sight)),
      fmt::format("Take a support that holds {} at {}, or press with {} at most",
                  sight.say(2.0 * worst.force, Quantity::force), pressure,
                  sight.say(0.5 * worst.capacity, Quantity::force)),
      worst.time);
  report.also(weak.rest());
}

void look_at_order(const Sight& sight, Report& report) {
  if (!sight.ran() || sight.all({"work_support"}).empty()) return;
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
  if (!sight.ran() || sight.all({"work_support"}).empty()) return;
  for (const First& lock : first_above(sight, "work_support", "capacity", 1.0)) {
    const Course touch = sight.output(lock.part, "touch_force");
    if (!touch || touch.at(lock.time) > 0.0) continue;
    const double up = 1e-5 * std::round(1e5 * sight.position(lock.part, 0).at(lock.time));  // to 0.01 mm
    report.add(
        lock.part,
        fmt::format("{} is locked {} with its plunger {} up, and the workpiece is {} above it: it holds "
                    "in the air",
                    sight.tag(lock.part), sight.when(lock.time), sight.say(up, Quantity::length),
                    sight.say(std::max(0.0, sight.values(lock.part)["gap"] - up), Quantity::length)),
        fmt::format("Feed it slowly enough to be up {} before its line reaches {}, and see that its plunger "
                    "moves freely",
                    sight.say(sight.values(lock.part)["gap"], Quantity::length),
                    sight.say(sight.pressure({lock.part, 0}).at(lock.time), Quantity::pressure)),
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
              .remedy = "Less flow into the support, a shorter gap, a plunger free of chips.",
              .kinds = support_alone,
              .look = look_at_locking_in_the_air},
};

}  // namespace

std::span<const TradeRule> clamping_support_rules() { return rules; }

}  // namespace poise::rules
