// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/pressed.hpp"

#include <algorithm>
#include <cmath>

#include "parts/laws.hpp"
#include "parts/line.hpp"
#include "parts/relief.hpp"
#include "rules/ways.hpp"

namespace poise::rules {
namespace {

/// Whether pressure gets from one port of a part to another undiminished.
using Spreads = bool (*)(const PlannedPart&, std::string_view from, std::string_view to);

bool spreads_forwards(const PlannedPart& part, std::string_view from, std::string_view to) {
  const std::string_view kind = part.kind->about.kind;
  if (part.kind->about.role == Role::one_way) return from == "A";
  if (is_directional(part)) return from == "P" && to != "T";
  if (kind == "sequence") return from == "A";
  if (kind == "counterbalance") return from == "B";
  if (kind == "shuttle") return to == "C";
  if (kind == "flow_divider" || kind == "gear_flow_divider") return from == "P";
  return through_restrictions(part);
}

bool spreads_at_once(const PlannedPart& part, std::string_view from, std::string_view to) {
  return part.kind->about.kind != "sequence" && !is_directional(part) && spreads_forwards(part, from, to);
}

bool spreads_undivided(const PlannedPart& part, std::string_view from, std::string_view to) {
  return !part.kind->about.kind.ends_with("flow_divider") && spreads_forwards(part, from, to);
}

bool spreads_unchecked(const PlannedPart& part, std::string_view from, std::string_view to) {
  const std::string_view kind = part.kind->about.kind;
  return part.kind->about.role != Role::one_way && kind != "quick_coupling" && kind != "shut_off" &&
         kind != "sequence" && spreads_forwards(part, from, to);
}

/// Groups of lines that always lead to a reservoir, through filters and coolers as well.
std::set<int> return_lines(const Sight& sight) {
  std::set<int> found;
  for (int tank : sight.all(Role::reservoir)) {
    const auto nowhere = [](int) { return false; };
    found.merge(groups_from(sight, sight.group({tank, 0}), nowhere, [&](PortOf at) {
      return through_lines_and_filters(sight.part(at.part)) ? sight.oil_ports(at.part)
                                                            : std::vector<PortOf>{};
    }));
  }
  return found;
}

std::set<int> spread(const Sight& sight, PortOf from, Spreads spreads) {
  const std::set<int> returns = return_lines(sight);
  const auto stops_at = [&](int group) { return returns.contains(group); };
  return groups_from(sight, sight.group(from), stops_at, [&](PortOf at) {
    const std::string_view in = sight.plan.port(at).name;
    std::vector<PortOf> outlets = sight.oil_ports(at.part);
    std::erase_if(outlets, [&](PortOf other) {
      return returns.contains(sight.group(other)) ||
             !spreads(sight.part(at.part), in, sight.plan.port(other).name);
    });
    return outlets;
  });
}

double along(std::span<const CurvePoint> points, double x) {
  if (x <= points.front().x) return points.front().y;
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (x > points[i].x) continue;
    const double share = (x - points[i - 1].x) / (points[i].x - points[i - 1].x);
    return points[i - 1].y + share * (points[i].y - points[i - 1].y);
  }
  return points.back().y;
}

/// The most that steps set an input of a part to, or its own value.
double most_set(const Sight& sight, int part, std::string_view parameter) {
  double most = sight.values(part)[parameter];
  for (const Step& step : sight.steps) {
    for (const Command& command : step.commands) {
      if (command.part == part) most = std::max(most, command.target);
    }
  }
  return most;
}

/// Whether the pump's line has a valve that lets its flow to tank at this pressure.
bool is_unloaded(const Sight& sight, int pump, double pressure) {
  const std::set<int> zone = sight.reach(PortOf{pump, 1}, through_lines);
  return std::ranges::any_of(sight.all({"unloading_valve"}), [&](int valve) {
    return sight.touches(zone, {valve, 0}) && sight.values(valve)["setting"] < pressure;
  });
}

}  // namespace

std::set<int> pressed_from(const Sight& sight, PortOf from) { return spread(sight, from, spreads_forwards); }
std::set<int> pressed_at_once(const Sight& sight, PortOf from) {
  return spread(sight, from, spreads_at_once);
}

std::set<int> pressed_unchecked(const Sight& sight, PortOf from) {
  return spread(sight, from, spreads_unchecked);
}

bool is_directional(const PlannedPart& part) { return part.kind->about.kind.starts_with("directional_"); }

bool through_lines_and_filters(const PlannedPart& part) {
  return through_lines(part) || part.kind->about.kind == "filter";
}

bool stays_open(const PlannedPart& part) {
  const std::string_view kind = part.kind->about.kind;
  return through_restrictions(part) && kind != "quick_coupling" && kind != "shut_off";
}

std::vector<int> pumps_with_all_flow(const Sight& sight, PortOf at) {
  std::vector<int> found = sight.all(Role::source);
  std::erase_if(found, [&](int pump) {
    return !spread(sight, {pump, 1}, spreads_undivided).contains(sight.group(at));
  });
  return found;
}

bool limits_all(const Sight& sight, int valve, const std::vector<int>& pumps) {
  const std::vector<int> limited = pumps_of(sight, {valve, 0});
  return std::ranges::all_of(pumps,
                             [&](int pump) { return std::ranges::find(limited, pump) != limited.end(); });
}

std::vector<Limit> guards_of(const Sight& sight, PortOf at) {
  std::vector<Limit> found;
  const std::vector<int> pumps = pumps_of(sight, at);
  const std::set<int> returns = return_lines(sight);
  for (int valve : sight.all(Role::pressure_limit)) {
    if (sight.touches(returns, {valve, 1}) && pressed_from(sight, {valve, 0}).contains(sight.group(at)) &&
        limits_all(sight, valve, pumps))
      found.push_back(sight.limit(valve));
  }
  std::ranges::sort(found, {}, &Limit::cracking);
  return found;
}

bool is_behind_a_valve(const Sight& sight, int p) {
  const auto before = sight.ports_in(sight.reach(PortOf{p, 0}, through_restrictions));
  return std::ranges::any_of(before, [&](PortOf at) {
    return is_directional(sight.part(at.part)) && sight.plan.port(at).name == "T";
  });
}

std::vector<int> intensifiers_at(const Sight& sight, const std::set<int>& groups) {
  std::vector<int> found = sight.all({"intensifier", "cycling_intensifier"});
  std::erase_if(found, [&](int part) { return !sight.touches(groups, *sight.port(part, "B")); });
  return found;
}

std::optional<Ceiling> ceiling_of(const Sight& sight, PortOf at) {
  const int group = sight.group(at);
  for (int part : sight.all({"intensifier", "cycling_intensifier"})) {
    if (pressed_from(sight, *sight.port(part, "B")).contains(group)) return std::nullopt;
  }
  std::vector<int> feeds = pumps_of(sight, at);
  if (feeds.empty()) {
    feeds = sight.all({"reducing", "reducing_non_relieving"});
    std::erase_if(feeds, [&](int valve) { return !pressed_from(sight, {valve, 1}).contains(group); });
  } else if (std::ranges::any_of(feeds, [&](int pump) { return !sight.is(pump, "variable_pump"); })) {
    feeds.clear();
  }
  std::optional<Ceiling> lowest;
  for (int part : feeds) {
    // Of several that feed one port the highest counts.
    const double setting = sight.values(part)["setting"];
    if (!lowest || setting > lowest->pressure) lowest = Ceiling{part, setting};
  }
  const std::vector<Limit> guards = guards_of(sight, at);
  if (!guards.empty() && (!lowest || guards.front().cracking <= lowest->pressure))
    lowest = Ceiling{guards.front().part, guards.front().cracking};
  return lowest;
}

double delivery_at(const Sight& sight, int pump, double pressure) {
  const Values& v = sight.values(pump);
  if (is_unloaded(sight, pump, pressure)) return 0.0;
  const bool by_air = sight.is(pump, "air_driven_pump");
  const double stall = by_air ? v["ratio"] * most_set(sight, pump, "air_pressure") : 0.0;
  if (find_parameter(v.table(), "delivery_curve") && v.given("delivery_curve"))
    return by_air && pressure > stall ? 0.0 : along(v.points("delivery_curve"), pressure);
  if (by_air) return stall > pressure ? v["flow"] * (1.0 - pressure / stall) : 0.0;
  if (sight.is(pump, "two_stage_pump")) {
    const bool one_is_left = v["unloading_pressure"] * (1.0 + v["unloading_band"]) < pressure;
    return one_is_left ? v["high_pressure_flow"] : v["low_pressure_flow"];
  }
  if (sight.is(pump, "hand_pump")) return v["stroke_volume"] * most_set(sight, pump, "rate");
  return sight.pump_flow(pump);
}

double flow_of_all_pumps(const Sight& sight) {
  double flow = 0.0;
  for (int pump : sight.all(Role::source)) flow += sight.pump_flow(pump);
  return flow;
}

std::vector<int> pumps_of(const Sight& sight, PortOf at) {
  std::vector<int> found = sight.all(Role::source);
  std::erase_if(found, [&](int pump) { return !pressed_from(sight, {pump, 1}).contains(sight.group(at)); });
  return found;
}

double flow_over(const Sight& sight, const Limit& limit) {
  double flow = 0.0;
  for (int pump : pumps_with_all_flow(sight, {limit.part, 0}))
    flow += delivery_at(sight, pump, limit.cracking);
  return flow;
}

double pressure_over(const Sight& sight, const Limit& limit, double flow) {
  if (sight.is(limit.part, "pilot_operated_relief")) return limit.at_flow(flow);
  return ReliefOpening(sight.values(limit.part)).pressure(flow);
}

double full_flow_pressure(const Sight& sight, const Limit& limit) {
  return pressure_over(sight, limit, std::min(flow_over(sight, limit), limit.rated_flow));
}

double highest_to_come(const Sight& sight, int p) {
  const std::vector<Limit> guards = guards_of(sight, {p, 0});
  const double most = guards.empty() ? 0.0 : full_flow_pressure(sight, guards.front());
  return std::max({most, sight.highest(PortOf{p, 0}).value, sight.highest(PortOf{p, 1}).value});
}

/// A flow that is none, m3/s: of a pump that never ran too.
constexpr double no_flow = 1e-8;

bool pumps_rest(const Sight& sight, double time) {
  return std::ranges::all_of(sight.all(Role::source), [&](int pump) {
    // What it draws, not what it delivers: a compensated pump that only holds still feeds its own leaks.
    const Course drawn = sight.flow({pump, 0});
    return drawn && std::abs(drawn.at(time)) <= std::max(0.01 * std::abs(drawn.greatest().value), no_flow);
  });
}

bool is_clamp(const Sight& sight, int part) { return sight.is_one_of(part, {"swing_clamp", "work_support"}); }

std::vector<Driven> driven_in(const Sight& sight, const std::set<int>& groups) {
  std::vector<Driven> found;
  std::ranges::copy_if(sight.driven(), std::back_inserter(found),
                       [&](const Driven& driven) { return sight.touches(groups, driven.port); });
  return found;
}

bool leads_back(const Sight& sight, const std::set<int>& groups, int valve) {
  if (sight.has_reservoir(groups)) return true;
  return std::ranges::any_of(sight.ports_in(groups), [&](PortOf at) {
    if (at.part == valve || sight.plan.port(at).pilot) return false;
    const std::string_view kind = sight.part(at.part).kind->about.kind;
    if (sight.role(at.part) == Role::one_way) return at.port == 0 || kind == "pilot_operated_check";
    return is_directional(sight.part(at.part)) || kind == "counterbalance" || kind == "shuttle" ||
           kind == "sequence" || kind.starts_with("reducing") || kind.ends_with("divider");
  });
}

double oil_of_line(const Sight& sight, int line) {
  const Values& v = sight.values(line);
  return circle(v["bore"]) * v["length"];
}

double give_of_hose(const Sight& sight, int hose) {
  const Values& v = sight.values(hose);
  return Hose::swelling(v) * v["length"];
}

double give_of_line(const Sight& sight, int line) {
  if (sight.is(line, "hose")) return give_of_hose(sight, line);
  const Values& v = sight.values(line);
  return oil_of_line(sight, line) * v["bore"] / (v["wall"] * Tube::steel_modulus);
}

Room room_of(const Sight& sight, const std::set<int>& groups, double time) {
  Room room;
  for (const PortOf& at : sight.ports_in(groups)) {
    const Kind& kind = *sight.part(at.part).kind;
    const Laws laws = kind.make(sight.values(at.part), sight.oil);
    const Space space = laws.space(laws.numbers.get(), at.port);
    room.volume += space.volume;
    room.give += space.wall;
    for (int m = 0; m < kind.motion_ports; ++m)
      room.volume += space.swept[m] * sight.position(at.part, m).at(time);
  }
  return room;
}

}  // namespace poise::rules
