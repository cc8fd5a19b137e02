// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/trapped.hpp"

#include <algorithm>
#include <array>

namespace poise::rules {
namespace {

bool is_among(const PlannedPart& part, std::span<const std::string_view> kinds) {
  return std::ranges::find(kinds, part.kind->about.kind) != kinds.end();
}

/// What is open, or joins its inlet to one of its outlets in every position.
bool stays_joined(const PlannedPart& part) {
  constexpr std::array<std::string_view, 6> kinds{"directional_3_2", "directional_4_2", "shuttle",
                                                  "flow_divider",    "reducing",        "gear_flow_divider"};
  return through_restrictions(part) || is_among(part, kinds);
}

/// What a person can open, or what is open anyway: valves have a hand override.
bool opens_by_hand(const PlannedPart& part) {
  constexpr std::array<std::string_view, 2> kinds{"directional_2_2", "directional_4_3"};
  return stays_joined(part) || is_among(part, kinds);
}

/// Whether oil under pressure gets out of a part where it stands at one port, to another.
bool lets_out(const PlannedPart& part, std::string_view from, std::string_view to) {
  if (part.kind->about.role == Role::one_way) return from == "A" && to == "B";
  if (part.kind->about.kind == "sequence")
    return part.values.word("reverse_check") == 1 && from == "B" && to == "A";
  if (part.kind->about.kind == "counterbalance") return from == "B" && to == "A";
  // Its drain takes nothing below the setting.
  if (part.kind->about.kind == "reducing") return from != "T" && to != "T";
  return opens_by_hand(part);
}

bool has_outlet_of_pump(const Sight& sight, const std::set<int>& zone) {
  return std::ranges::any_of(sight.all(Role::source), [&](int pump) {
    return sight.touches(zone, {pump, 1});
  });
}

}  // namespace

std::vector<HeldLine> held_lines(const Sight& sight) {
  std::vector<HeldLine> found;
  for (int check : sight.all(Role::one_way)) {
    HeldLine line{.check = check, .zone = sight.reach(PortOf{check, 1}, stays_joined)};
    // A line that is always open to tank, or that a part beside the check empties, is not held.
    if (sight.is_tank_line({check, 1}) || sight.touches(line.zone, {check, 0}) ||
        has_outlet_of_pump(sight, line.zone))
      continue;
    for (const PortOf& at : sight.ports_in(line.zone)) {
      if (sight.is(at.part, "accumulator")) line.has_accumulator = true;
      if (sight.role(at.part) == Role::actuator && !sight.is(at.part, "hydraulic_motor") &&
          std::ranges::find(line.actuators, at.part) == line.actuators.end())
        line.actuators.push_back(at.part);
    }
    if (line.has_accumulator || !line.actuators.empty()) found.push_back(std::move(line));
  }
  return found;
}

bool can_be_let_off(const Sight& sight, int group) {
  std::set<int> seen{group};
  std::vector<int> to_visit{group};
  while (!to_visit.empty()) {
    const int here = to_visit.back();
    to_visit.pop_back();
    if (sight.has_reservoir({here})) return true;
    for (const PortOf& at : sight.members(here)) {
      const Port& port = sight.plan.port(at);
      if (port.domain != Domain::oil || port.pilot) continue;
      for (const PortOf& other : sight.oil_ports(at.part)) {
        if (other == at || !lets_out(sight.part(at.part), port.name, sight.plan.port(other).name)) continue;
        if (seen.insert(sight.group(other)).second) to_visit.push_back(sight.group(other));
      }
    }
  }
  return false;
}

int gauge_in(const Sight& sight, const std::set<int>& groups) {
  for (int gauge : sight.all({"gauge"})) {
    if (sight.touches(groups, {gauge, 0})) return gauge;
  }
  return -1;
}

}  // namespace poise::rules
