// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Loads that are let down.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "parts/common.hpp"
#include "rules/holding.hpp"
#include "rules/load.hpp"
#include "rules/rods.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 1> burst_valves{"hose_burst_valve"};
constexpr std::array<std::string_view, 2> coupled{"counterbalance", "rigid_load"};
constexpr std::array<std::string_view, 2> jacks{"single_acting_cylinder", "mass"};
constexpr std::array<std::string_view, 1> rigid{"rigid_load"};

void look_burst_valve(const Sight& sight, Report& report) {
  constexpr double over_normal = 1.2, under_burst = 0.8;
  for (const HeldLoad& load : held_loads(sight)) {
    for (int valve : valves_at(sight, load.side, "hose_burst_valve", "B")) {
      const Values& v = sight.values(valve);
      const double trip = v["trip_flow"];
      const double burst = common::drop_of(v, sight.oil).flow(load.least / load.area, 1.0);
      const Course flow = sight.flow({valve, 0});
      const Peak fastest = flow ? flow.lowest() : Peak{};
      const double normal = -fastest.value;
      const auto say = [&](double each) { return sight.say(each, Quantity::flow); };
      const bool too_high = trip > under_burst * burst, too_low = normal > 0.0 && trip < over_normal * normal;
      if (too_high)
        report.add(
            valve,
            fmt::format("{} shuts at {}, and with {} on {} a burst hose gives {} at most, of which 80 % "
                        "are {}",
                        sight.tag(valve), say(trip), sight.say(load.least, Quantity::force),
                        sight.tag(load.cylinder), say(burst), say(under_burst * burst)),
            fmt::format("Set {} to {} or less{}", sight.tag(valve), say(under_burst * burst),
                        normal > 0.0 ? ", and to " + say(over_normal * normal) + " or more" : ""));
      else if (too_low)
        report.add(valve,
                   fmt::format("{} shuts at {}, and {} comes down with {} {}: 1.2 times that are {}",
                               sight.tag(valve), say(trip), sight.tag(load.cylinder), say(normal),
                               sight.when(fastest.time), say(over_normal * normal)),
                   fmt::format("Set {} to {} or more, but no more than {}, or lower more slowly",
                               sight.tag(valve), say(over_normal * normal), say(under_burst * burst)),
                   fastest.time);
    }
  }
}

/// The counterbalance valve that holds a load, or −1.
int counterbalance_of(const Sight& sight, const HeldLoad& load) {
  const auto valves = valves_at(sight, load.side, "counterbalance", "A");
  return valves.empty() ? -1 : valves[0];
}

void look_shared(const Sight& sight, Report& report) {
  constexpr double apart = 0.02;
  const std::vector<HeldLoad> loads = held_loads(sight);
  for (std::size_t i = 0; i < loads.size(); ++i) {
    const int one = counterbalance_of(sight, loads[i]);
    for (std::size_t k = i + 1; one >= 0 && k < loads.size(); ++k) {
      const int other = counterbalance_of(sight, loads[k]);
      if (loads[k].load != loads[i].load || other < 0 || other == one) continue;
      const double a = sight.values(one)["setting"], b = sight.values(other)["setting"];
      if (std::abs(a - b) <= apart * std::max(a, b)) continue;
      report.add(one,
                 fmt::format("{} and {} carry {} together, but {} holds up to {} and {} up to {}",
                             sight.tag(loads[i].cylinder), sight.tag(loads[k].cylinder),
                             sight.tag(loads[i].load), sight.tag(one), sight.say(a, Quantity::pressure),
                             sight.tag(other), sight.say(b, Quantity::pressure)),
                 fmt::format("Set both to {}, or hold both cylinders with one valve",
                             sight.say(std::max(a, b), Quantity::pressure)));
      break;  // one word for each load
    }
  }
}

/// Whether what lets a load down keeps its speed whatever the load.
bool speed_is_kept(const Sight& sight, PortOf side) {
  const auto way = way_to_tank(sight, side);
  const auto throttles = throttles_in(sight, way);
  return std::ranges::any_of(throttles, [&](int p) { return sight.is(p, "compensated_flow_control"); });
}

void look_by_gravity(const Sight& sight, Report& report) {
  constexpr double line_loss = 3 * si::bar, faster = 1.5;
  for (const HeldLoad& load : held_loads(sight)) {
    if (!sight.is(load.cylinder, "single_acting_cylinder")) continue;
    const Values& v = sight.values(load.cylinder);
    const double light = (load.least + v["spring_preload"] - v["friction"]) / load.area;
    const double heavy = (load.most + v["spring_preload"] - v["friction"]) / load.area;
    const std::string& tag = sight.tag(load.cylinder);
    if (light < line_loss) {
      report.add(
          load.cylinder,
          fmt::format("{} has {} to push its oil home with under {}, where lines and valves take some "
                      "{}",
                      tag, sight.say(std::max(0.0, light), Quantity::pressure),
                      sight.say(load.least, Quantity::force), sight.say(line_loss, Quantity::pressure)),
          fmt::format("Give {} a return spring of {} or more, or larger return lines", tag,
                      sight.say((line_loss - light) * load.area + v["spring_preload"], Quantity::force)));
    } else if (heavy > faster * faster * light && !speed_is_kept(sight, load.side)) {
      report.add(load.cylinder,
                 fmt::format("{} comes down {:.1f} times as fast at {} as at {}: nothing keeps its speed",
                             tag, std::sqrt(heavy / light), sight.say(heavy, Quantity::pressure),
                             sight.say(light, Quantity::pressure)),
                 fmt::format("Lower {} over a pressure-compensated flow control, or set the throttle for {}",
                             tag, sight.say(heavy, Quantity::pressure)));
    }
  }
}

/// How long a point's rod goes down without its load, while the load hangs on the others, s.
struct Slack {
  double lasts = 0.0, begins = 0.0, height = 0.0;
};
Slack slack_of(const Sight& sight, const HeldLoad& load, PortOf point) {
  const Course force = force_on_point(sight, point);
  const Course blocks = sight.output(point.part, "on_blocks"), heave = sight.position(point.part, 0);
  const Course speed = sight.speed(load.cylinder);
  Slack slack;
  if (!force || !blocks || !heave || !speed) return slack;
  const double nothing = 0.005 * load.mass * si::gravity;
  for (std::size_t row = 1; row < force.time().size(); ++row) {
    const bool away = force.value()[row] < nothing && blocks.value()[row] < nothing &&
                      heave.value()[row] > 5 * si::mm && speed.value()[row] < -0.5 * si::mm;
    if (!away) continue;
    if (slack.lasts == 0.0) slack = {0.0, force.time()[row], heave.value()[row]};
    slack.lasts += force.time()[row] - force.time()[row - 1];
  }
  return slack;
}

void look_slack(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (const HeldLoad& load : held_loads(sight)) {
    if (!sight.is(load.load, "rigid_load")) continue;
    for (const PortOf& point : sight.members(sight.group(*sight.port(load.cylinder, "rod")))) {
      if (point.part != load.load) continue;
      const Slack slack = slack_of(sight, load, point);
      if (slack.lasts < 0.1) continue;
      report.add(
          load.cylinder,
          fmt::format("{} goes down without its load for {}, first {}: {} hangs on the other points, {} up",
                      sight.tag(load.cylinder), sight.say(slack.lasts, Quantity::time),
                      sight.when(slack.begins), sight.tag(load.load),
                      sight.say(slack.height, Quantity::length)),
          fmt::format("Lower {} no faster than the others, and stop once its gauge falls below {}",
                      sight.tag(load.cylinder),
                      sight.say(0.25 * load.weight / load.area, Quantity::pressure)),
          slack.begins);
      return;
    }
  }
}

constexpr std::array rules{
    TradeRule{.name = "burst valve window",
              .harm = Harm::hurts,
              .holds =
                  "A hose-burst valve shuts at 1.2 times the fastest lowering or more, and at no more than "
                  "0.8 times what a burst gives under the lightest load with only the valve in its way.",
              .otherwise = "It shuts in the middle of lowering, or not at all as the hose bursts.",
              .remedy = "Set the trip flow between the two, or lower more slowly to make room between them.",
              .source = "lift-table note on velocity fuses; factors common practice",
              .kinds = burst_valves,
              .look = look_burst_valve},
    TradeRule{.name = "holding valves of one load are alike",
              .harm = Harm::damages,
              .holds = "Counterbalance valves of cylinders that carry one load are set alike within 2 %.",
              .otherwise = "One cylinder carries all of it, overloaded, and the load bounces.",
              .remedy = "Set them alike, or hold the cylinders with one valve.",
              .source = "hydraulics specification for aircraft (one lock valve for actuators tied together); "
                        "common practice",
              .kinds = coupled,
              .look = look_shared},
    TradeRule{.name = "lowering by weight",
              .harm = Harm::works_badly,
              .holds =
                  "A single-acting cylinder that its load brings back has 3 bar or more for its oil under "
                  "the lightest load, and full and empty differ less than 1.5 times in speed or a "
                  "compensated flow control keeps it.",
              .otherwise = "Empty it stays out or creeps home; full it comes down faster than anybody "
                           "reckoned: speed goes with the root of the pressure.",
              .remedy = "A return spring, larger lines, or a pressure-compensated flow control.",
              .kinds = jacks,
              .look = look_by_gravity},
    TradeRule{.name = "cylinder stays under the load",
              .harm = Harm::hurts,
              .holds = "While a raised load is let down every point goes on carrying: no rod goes down for "
                       "0.1 s or more without its load.",
              .otherwise = "The load hangs on the rest, then drops onto the rod that went ahead.",
              .remedy = "Lower the points together, watch each gauge, and stop when one falls.",
              .source = "a technician's story of a pre-load valve; common practice",
              .kinds = rigid,
              .look = look_slack},
};

}  // namespace

std::span<const TradeRule> lowering_rules() { return rules; }

}  // namespace poise::rules
