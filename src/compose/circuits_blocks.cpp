// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The registry of building blocks, and which of their ways a job leaves open.
#include "compose/circuits_blocks.hpp"

#include <algorithm>
#include <array>

namespace poise::compose {
namespace {

using Ways = std::vector<std::string_view>;

Ways one_way(const Wanted&) { return {""}; }

bool any(const Wanted& wanted, bool (*is)(const Group&)) { return std::ranges::any_of(wanted.groups, is); }

bool is_levelled(const Group& group) { return !group.levelled.empty(); }

/// Whether loads that rest on it must not come down faster than some speed.
bool is_limited(const Wanted& wanted, const Group& group) {
  return group.lifts &&
         std::ranges::any_of(group.members, [&](int m) { return wanted.actuators[m].in_limit > 0.0; });
}

bool is_any_limited(const Wanted& wanted) {
  return std::ranges::any_of(wanted.groups, [&](const Group& group) { return is_limited(wanted, group); });
}

Ways ways_to_order(const Wanted& wanted) {
  if (!any(wanted, [](const Group& g) { return g.stages.size() > 1; })) return {""};
  return {"sequence valves", "steps that wait for the pressure"};
}

Ways ways_to_meter(const Wanted& wanted) {
  const bool asked = any_lifts(wanted) || std::ranges::any_of(wanted.actuators, [](const Actuator& a) {
                       return a.swings || a.out_limit > 0.0 || a.in_limit > 0.0;
                     });
  return asked ? Ways{"needles meter", "compensated flow controls meter"} : Ways{""};
}

Ways ways_to_hold(const Wanted& wanted) {
  if (!any_lifts(wanted)) return {""};
  Ways ways{"pilot-operated checks at the cylinders", "counterbalance valves at the cylinders"};
  const bool alone = wanted.groups.size() == 1 && wanted.groups[0].members.size() == 1 &&
                     !wanted.first(wanted.groups[0]).both;
  if (alone) ways.emplace_back("a check behind the pump, which only lifts");
  return ways;
}

Ways ways_to_level(const Wanted& wanted) {
  const auto levelled = std::ranges::find_if(wanted.groups, is_levelled);
  if (levelled == wanted.groups.end()) return {""};
  Ways ways;
  if (levelled->members.size() <= 4) ways.emplace_back("a gear divider");
  // Their compensators stand open at rest, and all points jump as they are let go.
  if (ways.empty() || !is_any_limited(wanted)) ways.emplace_back("flow controls at every point");
  return ways;
}

Ways ways_to_reduce(const Wanted& wanted) {
  if (!any(wanted, [](const Group& g) { return !g.weaker.empty(); })) return {""};
  return {"a relieving reducing valve", "a reducing valve that only shuts"};
}

Ways ways_to_keep(const Wanted& wanted) {
  Ways ways;
  for (const Keep keep : keeps_of(wanted)) {
    constexpr std::array<std::string_view, 4> names{
        "a pilot-operated check holds", "the pump keeps its pressure", "a check holds and the pump stops",
        "an accumulator holds behind a check"};
    ways.push_back(names[static_cast<std::size_t>(keep)]);
  }
  return ways.empty() ? Ways{""} : ways;
}

Ways ways_to_idle(const Wanted& wanted) {
  const bool alone = wanted.groups.size() == 1 && wanted.groups[0].lifts && wanted.groups[0].held_in;
  return alone ? Ways{"the pump idles while they hold", "the pump stops while they hold"} : Ways{""};
}

Ways ways_to_supply(const Wanted& wanted) {
  const bool far =
      any(wanted, [](const Group& g) { return !g.lifts; }) &&
      std::ranges::any_of(wanted.groups, [&](const Group& g) { return must_be_let_off(wanted, g); });
  if (!far || wanted.pump) return {""};
  return {"a pump of one stage", "a pump of two stages"};
}

constexpr std::array registry{
    Block{"order", ways_to_order, block_order},     // what moves first
    Block{"lock", one_way, block_lock},             // nuts that carry a raised load
    Block{"meter", ways_to_meter, block_meter},     // throttles at the actuators
    Block{"hold", ways_to_hold, block_hold},        // what keeps a load up
    Block{"level", ways_to_level, block_level},     // the same oil for several
    Block{"reduce", ways_to_reduce, block_reduce},  // less pressure for some
    Block{"sequence", one_way, block_sequence},     // valves that wait for pressure
    Block{"keep", ways_to_keep, block_keep},        // what keeps clamps pressed
    Block{"let off", one_way, block_let_off},       // before a valve lets go at one blow
    Block{"idle", ways_to_idle, block_idle},        // what the pump does meanwhile
    Block{"direct", one_way, block_direct},         // the valves that work it all
    Block{"isolate", one_way, block_isolate},       // checks ahead of these
    Block{"supply", ways_to_supply, block_supply},  // pump, its relief valve, reservoir
};

int way_in(const std::vector<int>& ways, std::string_view name) {
  const auto found = std::ranges::find(registry, name, &Block::name);
  return ways[static_cast<std::size_t>(found - registry.begin())];
}

}  // namespace

std::span<const Block> blocks() { return registry; }

bool any_lifts(const Wanted& wanted) {
  return any(wanted, [](const Group& g) { return g.lifts; });
}

bool any_presses(const Wanted& wanted) {
  return any(wanted, [](const Group& g) { return !g.lifts; });
}

bool must_be_let_off(const Wanted& wanted, const Group& group) {
  constexpr double bang = 50.0;  // J, common practice
  if (group.lifts) return false;
  double energy = 0.0;
  for (const int m : group.members) {
    const Actuator& a = wanted.actuators[m];
    energy += a.area_a * a.way * a.needs * a.needs / (2.0 * oil_modulus);
  }
  return energy > bang;
}

std::vector<Keep> keeps_of(const Wanted& wanted) {
  std::vector<Keep> keeps;
  if (!any_presses(wanted)) return keeps;
  const bool all_held =
      std::ranges::all_of(wanted.groups, [](const Group& g) { return g.lifts || g.held_in; });
  if (all_held) keeps.push_back(Keep::pilot_check);
  const bool fixed = wanted.pump && wanted.job.plan.parts[*wanted.pump].kind->about.kind != "variable_pump";
  if (!fixed) keeps.push_back(Keep::pump);
  if (!any_lifts(wanted)) keeps.insert(keeps.end(), {Keep::check, Keep::accumulator});
  return keeps;
}

Keep keep_of(const Making& making) {
  const auto keeps = keeps_of(making.wanted);
  return keeps.empty() ? Keep::pilot_check : keeps[static_cast<std::size_t>(making.way_of("keep"))];
}

bool goes_together(const Wanted& wanted, const std::vector<int>& ways) {
  const auto keeps = keeps_of(wanted);
  const bool pump_keeps = !keeps.empty() && keeps[way_in(ways, "keep")] == Keep::pump;
  if (pump_keeps && way_in(ways, "supply") == 1) return false;  // a two-stage pump does not hold its pressure
  // Flow controls at every point meter themselves.
  const auto level = ways_to_level(wanted);
  if (level[way_in(ways, "level")].starts_with("flow controls") && way_in(ways, "meter") == 1) return false;
  // At rest a compensator stands open: a load that is let go jumps, past any limit of its speed.
  const bool limited = is_any_limited(wanted);
  if (limited && way_in(ways, "meter") == 1) return false;
  // Behind a check the pump stands while it holds.
  return way_in(ways, "hold") != static_cast<int>(Hold::check_and_lowering) || way_in(ways, "idle") == 1 ||
         ways_to_idle(wanted).size() == 1;
}

}  // namespace poise::compose
