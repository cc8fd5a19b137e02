// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Energy that stays in trapped lines and as the cycle ends.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "rules/alike.hpp"
#include "rules/chapters.hpp"
#include "rules/lifting_point.hpp"
#include "rules/load.hpp"
#include "rules/pressed.hpp"
#include "rules/trapped.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 4> behind_checks{"check", "pilot_operated_check", "shut_off",
                                                        "needle"};
constexpr std::array<std::string_view, 4> keepers{"accumulator", "single_acting_cylinder",
                                                  "double_acting_cylinder", "swing_clamp"};

/// A line that nothing lets off, and what it holds.
struct Locked {
  double pressure = 0.0;
  int holds = -1;
};

void tell_locked(const Sight& sight, const Alike<Locked>& locked, std::string remedy, Report& report) {
  const auto& [pressure, holds] = locked.worst();
  report.add(locked.part(),
             fmt::format("Up to {} stay behind {} at {}, and nothing there can be opened by hand{}",
                         sight.say(pressure, Quantity::pressure), sight.tag(locked.part()), sight.tag(holds),
                         locked.others(sight)),
             std::move(remedy));
  report.also(locked.rest());
}

void look_at_bleeds(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  Alike<Locked> locked, loaded;
  const std::vector<HeldLoad> loads = held_loads(sight);
  for (const HeldLine& line : held_lines(sight)) {
    if (line.has_accumulator || line.actuators.empty()) continue;
    const auto highest = sight.highest(line.zone);
    if (!highest || highest->peak.value < goes_through_skin) continue;
    if (can_be_let_off(sight, sight.group({line.check, 1}))) continue;
    const auto carried = std::ranges::find_if(
        loads, [&](const HeldLoad& load) { return sight.touches(line.zone, load.side); });
    if (carried == loads.end())
      locked.add({highest->peak.value, line.actuators.front()}, line.check, highest->peak.value);
    else
      loaded.add({highest->peak.value, carried->cylinder}, line.check, highest->peak.value);
  }
  if (loaded)
    tell_locked(sight, loaded,
                fmt::format("Put a throttled hand lowering valve for {} there, locked shut, opened only with "
                            "the load on its stop or blocks",
                            sight.say(loaded.worst().pressure, Quantity::pressure)),
                report);
  if (locked)
    tell_locked(sight, locked,
                fmt::format("Put a needle or shut-off for {} from there to tank, to let it off without "
                            "cracking a fitting",
                            sight.say(locked.worst().pressure, Quantity::pressure)),
                report);
}

bool moves_at_the_end(const Sight& sight, int p) {
  constexpr double creeps = 1e-5;  // m/s
  const Course speed = sight.speed(p);
  return speed && std::abs(speed.value().back()) > creeps;
}

/// Whether a switch, not the operator, starts and stops a pump: it rests until it is wanted again.
bool runs_by_itself(const Sight& sight) {
  return std::ranges::any_of(sight.controls, [&](const Control& control) {
    return std::ranges::any_of(
        control.commands, [&](const Command& command) { return sight.role(command.part) == Role::source; });
  });
}

/// Cylinders that end with their load up: what holds it is for other rules.
std::set<int> holding_up(const Sight& sight) {
  constexpr double up = 1e-3, more_than_weight = 1.3;
  std::set<int> found;
  for (const LiftingPoint& point : lifting_points(sight)) {
    const Course position = sight.position(point.jack), pressure = sight.pressure(point.oil);
    if (position && pressure && position.value().back() > up &&
        pressure.value().back() < more_than_weight * point.pressure())
      found.insert(point.jack);
  }
  return found;
}

void look_at_what_is_left(const Sight& sight, Report& report) {
  if (!sight.ran() || sight.trace().halt || runs_by_itself(sight) ||
      !pumps_rest(sight, sight.trace().time.back()))
    return;
  struct Place {
    PortOf at;
    double pressure = 0.0;
  };
  Alike<Place> left;
  const std::set<int> up = holding_up(sight);
  for (int p = 0; p < sight.parts(); ++p) {
    const bool holds = sight.role(p) == Role::actuator || sight.is(p, "accumulator");
    if (!holds || up.contains(p) || moves_at_the_end(sight, p)) continue;
    Place worst;
    for (const PortOf& at : sight.oil_ports(p)) {
      const Course pressure = sight.pressure(at);
      if (pressure && pressure.value().back() > worst.pressure) worst = {at, pressure.value().back()};
    }
    if (worst.pressure > goes_through_skin) left.add(worst, p, worst.pressure);
  }
  if (!left) return;
  const auto& [at, pressure] = left.worst();
  const int gauge = gauge_in(sight, sight.reach(at, through_restrictions));
  report.add(left.part(),
             fmt::format("{} keeps {} as the cycle ends and every pump rests{}", sight.name(at),
                         sight.say(pressure, Quantity::pressure), left.others(sight)),
             fmt::format("End with a step that lets it off, and read zero at {} "
                         "before a hand goes in or a fitting is touched",
                         gauge >= 0 ? sight.tag(gauge) : "a gauge that is put there"),
             sight.trace().time.back());
  report.also(left.rest());
}

constexpr std::array rules{
    TradeRule{
        .name = "something to let off each trapped line",
        .harm = Harm::hurts,
        .holds = "Each line with an actuator that a check keeps above 7 bar (100 psi) can be let off to "
                 "tank by something that is opened by hand.",
        .otherwise = "A fitting is cracked to let it off: oil goes through skin, the fitting flies.",
        .remedy = "Put a needle or shut-off to tank there; where the line carries a load, a throttled hand "
                  "lowering valve, locked shut, opened only with the load on its stop or blocks.",
        .source = "fluid power safety alerts on stored energy; safety article on injection (100 psi)",
        .kinds = behind_checks,
        .look = look_at_bleeds},
    TradeRule{.name = "no pressure left as the cycle ends",
              .harm = Harm::hurts,
              .holds =
                  "Where the cycle ends with every pump stopped by its steps, no actuator or accumulator "
                  "that stands still keeps more than 7 bar (100 psi), but for a load that is held up.",
              .otherwise = "Stored energy is let go in someone's face.",
              .remedy = "End with a step that lowers loads and lets every line off; read zero at each.",
              .source = "fluid power safety alerts on stored energy; accident insurance information on safe "
                        "maintenance",
              .kinds = keepers,
              .look = look_at_what_is_left},
};

}  // namespace

std::span<const TradeRule> energy_left_rules() { return rules; }

}  // namespace poise::rules
