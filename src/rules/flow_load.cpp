// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Loads that run ahead of their oil.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "rules/chapters.hpp"
#include "rules/rods.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 3> one_way_ways{"one_way_flow_control", "single_acting_cylinder",
                                                       "double_acting_cylinder"};
constexpr std::array<std::string_view, 2> cylinders{"double_acting_cylinder", "single_acting_cylinder"};

/// The side of a cylinder that carries its weight, or none.
std::optional<PortOf> loaded_side(const Sight& sight, int c) {
  const double weight = weight_against(sight, c);
  if (weight == 0.0) return std::nullopt;
  if (sight.is(c, "single_acting_cylinder"))
    return (weight > 0.0) != pulls(sight, c) ? sight.port(c, "A") : std::nullopt;
  return sight.port(c, weight > 0.0 ? "A" : "B");
}

double area_at(const Sight& sight, PortOf side) {
  return sight.plan.port(side).name == "A" ? face_at_a(sight, side.part) : faces(sight, side.part).b;
}

/// Whether something else meters or holds what leaves a loaded side.
bool is_metered_otherwise(const Sight& sight, const std::set<int>& near, PortOf side) {
  const auto all = sight.ports_in(sight.reach(side, can_feed));
  return std::ranges::any_of(all, [&](PortOf at) {
    if (sight.is_one_of(at.part, {"needle", "compensated_flow_control", "counterbalance", "flow_divider",
                                  "gear_flow_divider"}))
      return true;
    return sight.is(at.part, "one_way_flow_control") && sight.touches(near, {at.part, 1});
  });
}

void look_at_free_direction(const Sight& sight, Report& report) {
  for (int c : all_cylinders(sight)) {
    const auto side = loaded_side(sight, c);
    if (!side) continue;
    const auto near = sight.reach(*side, through_lines_and_checks);
    for (int p : sight.all({"one_way_flow_control"})) {
      const double rated = rated_flow(sight, p);
      if (!sight.touches(near, {p, 0}) || rated <= 0.0 || is_metered_otherwise(sight, near, *side)) continue;
      const double area = area_at(sight, *side), weight = std::abs(weight_against(sight, c));
      report.add(c,
                 fmt::format("{} throttles only what flows into {}; on the way down its check is free, and "
                             "the load makes {} in {}: at its rated {} that is already {}",
                             sight.tag(p), sight.tag(c), sight.say(weight / area, Quantity::pressure),
                             sight.name(*side), sight.say(rated, Quantity::flow),
                             sight.say(rated / area, Quantity::speed)),
                 fmt::format("Turn {} round: its port B to {}, so that it meters what comes out with {} over "
                             "it",
                             sight.tag(p), sight.name(*side), sight.say(weight / area, Quantity::pressure)));
    }
  }
}

/// The deepest moment at which a chamber that grows stands below −0.3 bar, with its speed.
struct Runaway {
  double lasts = 0.0, pressure = 0.0, speed = 0.0, time = 0.0;
};

Runaway runaway(const Sight& sight, PortOf chamber, double grows) {
  const Course pressure = sight.pressure(chamber), speed = sight.speed(chamber.part);
  Runaway found;
  if (!pressure || !speed) return found;
  const auto short_of_oil = [&](std::size_t row) {
    return pressure.value()[row] < -0.3 * si::bar && grows * speed.value()[row] > 1.0 * si::mm;
  };
  found.lasts = time_while(speed, short_of_oil);
  for (std::size_t row = 0; row < speed.time().size(); ++row) {
    if (!short_of_oil(row) || pressure.value()[row] >= found.pressure) continue;
    found.pressure = pressure.value()[row];
    found.speed = std::abs(speed.value()[row]);
    found.time = speed.time()[row];
  }
  return found;
}

/// What to do about it: where a counterbalance valve is there already, it hunts.
std::string hold_back(const Sight& sight, PortOf other, double pull, double flow) {
  const auto zone = sight.reach(other, through_restrictions);
  for (int valve : sight.all({"counterbalance"})) {
    if (!sight.touches(zone, *sight.port(valve, "A"))) continue;
    return fmt::format(
        "{} holds there already and hunts: take a ratio below its {:.3g} : 1, damp its pilot, "
        "or feed the {} that the load draws",
        sight.tag(valve), sight.values(valve)["ratio"], sight.say(flow, Quantity::flow));
  }
  return fmt::format("Put a counterbalance valve set to {} or more at {}, or meter what leaves there",
                     sight.say(1.3 * pull / area_at(sight, other), Quantity::pressure), sight.name(other));
}

void look_at_runaway(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  for (int c : sight.all({"double_acting_cylinder"})) {
    const Span forces = forces_against(sight, *sight.port(c, "rod"));
    const double weight = weight_against(sight, c);
    for (const bool out : {true, false}) {
      const double pull = out ? -(weight + forces.least) : weight + forces.greatest;
      if (pull <= 0.0) continue;
      const PortOf filled = *sight.port(c, out ? "A" : "B"), other = *sight.port(c, out ? "B" : "A");
      const Runaway found = runaway(sight, filled, out ? 1.0 : -1.0);
      if (found.lasts < 0.1) continue;
      report.add(
          c,
          fmt::format("The load runs ahead of the oil of {}: {} at {} with {} {}, for {} below -0.3 bar",
                      sight.tag(c), sight.say(found.pressure, Quantity::pressure), sight.name(filled),
                      sight.say(found.speed, Quantity::speed), sight.when(found.time),
                      sight.say(found.lasts, Quantity::time)),
          hold_back(sight, other, pull, found.speed * area_at(sight, filled)), found.time);
    }
  }
}

constexpr std::array rules{
    TradeRule{
        .name = "load does not run ahead of its oil",
        .harm = Harm::hurts,
        .holds = "Where the load helps the motion, the chamber that fills stands below -0.3 bar for 0.1 s at "
                 "most: "
                 "a counterbalance valve or a throttle holds what leaves the other side.",
        .otherwise = "The load runs away, a void forms behind the piston, and it bangs as it fills.",
        .remedy = "Counterbalance valve or throttle on the outflow; throttling the inflow holds nothing.",
        .source = "open textbook on overrunning loads; web restatement of an army manual",
        .kinds = cylinders,
        .look = look_at_runaway},
    TradeRule{.name = "one-way flow control is the right way round",
              .harm = Harm::hurts,
              .holds = "A one-way flow control at the side of a cylinder that carries a weight meters what "
                       "comes out; the oil that lifts goes through its check.",
              .otherwise = "The load comes down as fast as the lines let it.",
              .remedy = "Turn it round; look at its symbol, for the arrow on the body may mean either way.",
              .source = "web article on hooking up flow controls",
              .kinds = one_way_ways,
              .look = look_at_free_direction},
};

}  // namespace

std::span<const TradeRule> flow_load_rules() { return rules; }

}  // namespace poise::rules
