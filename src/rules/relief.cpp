// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Relief and unloading valves, pressure switches.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "rules/chapters.hpp"
#include "rules/sight.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 3> reliefs{"relief", "pilot_operated_relief",
                                                  "externally_drained_relief"};

/// Highest pressure that a pump's whole flow makes over the valve, Pa.
double full_flow_pressure(const Sight& sight, const Limit& limit) {
  double flow = 0.0;
  for (int pump : sight.all(Role::source)) flow += sight.pump_flow(pump);
  return limit.at_flow(std::min(flow, limit.rated_flow));
}

void look_at_weakest(const Sight& sight, Report& report) {
  for (int valve : sight.all(Role::pressure_limit)) {
    const auto zone = sight.reach(PortOf{valve, 0}, through_lines);
    const auto weakest = sight.weakest(zone);
    if (weakest.part < 0 || weakest.part == valve) continue;
    const double full = full_flow_pressure(sight, sight.limit(valve));
    if (full <= weakest.rating) continue;
    report.add(
        valve,
        fmt::format(
            "{} lets the line rise to {} with the whole pump flow over it, and {} on that line is rated "
            "{}",
            sight.tag(valve), sight.say(full, Quantity::pressure), sight.tag(weakest.part),
            sight.say(weakest.rating, Quantity::pressure)),
        fmt::format("Set {} so that it reads at most {} with the whole flow, or take a {} for more",
                    sight.tag(valve), sight.say(weakest.rating, Quantity::pressure),
                    sight.tag(weakest.part)));
  }
}

/// Share by which a relief valve cracks above the highest working pressure at least.
constexpr double above_the_work = 0.10;

void look_above_work(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int valve : sight.all(Role::pressure_limit)) {
    // What the work needs is what stands while the valve is shut: a valve that ends every stroke is meant to
    // open.
    const Course opening = sight.state(valve, "opening"), pressure = sight.pressure({valve, 0});
    if (!opening || !pressure) continue;
    const double cracks = sight.limit(valve).cracking, open = opening.time_above(0.001);
    const Peak highest = pressure.highest();
    if (open > 0.0 || highest.value * (1.0 + above_the_work) <= cracks) continue;
    report.add(
        valve,
        fmt::format("{} cracks at {}, and its line works at up to {}: {} between them, where 10 % is usual",
                    sight.tag(valve), sight.say(cracks, Quantity::pressure),
                    sight.say(highest.value, Quantity::pressure),
                    sight.say(cracks / highest.value - 1.0, Quantity::share)),
        fmt::format("Raise {} to {} if every part on its line stands that, or work at less", sight.tag(valve),
                    sight.say(highest.value * (1.0 + above_the_work), Quantity::pressure)),
        highest.time);
  }
}

constexpr std::array rules{
    TradeRule{.name = "relief below the weakest part",
              .harm = Harm::hurts,
              .holds = "With the whole pump flow over it a relief valve holds its line below the lowest "
                       "rating of all that "
                       "sees the pressure: hose, fitting, gauge, tube, valve, each side of each cylinder.",
              .otherwise = "The part with the lowest rating is the limit, and it bursts.",
              .remedy = "Lower the setting, or replace the part by one that stands the pressure.",
              .source = "workholding handbook text",
              .kinds = reliefs,
              .look = look_at_weakest},
    TradeRule{
        .name = "relief above the work",
        .harm = Harm::works_badly,
        .holds = "A relief valve that only guards cracks at least 10 % above the highest working pressure of "
                 "its line.",
        .otherwise =
            "It weeps in every cycle: heat, a pressure that is never reached, a setting that drifts.",
        .remedy = "Raise the setting, within the ratings of all that sees it, or work at a lower pressure.",
        .source = "training texts (10 to 15 %)",
        .kinds = reliefs,
        .look = look_above_work},
};

}  // namespace

std::span<const TradeRule> relief_rules() { return rules; }

}  // namespace poise::rules
