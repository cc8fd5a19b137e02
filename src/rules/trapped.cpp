// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/trapped.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "parts/directional.hpp"
#include "rules/pressed.hpp"

namespace poise::rules {
namespace {

bool is_among(const PlannedPart& part, std::span<const std::string_view> kinds) {
  return std::ranges::find(kinds, part.kind->about.kind) != kinds.end();
}

/// What pressure passes at rest whatever is shut: a flow control meters, but does not hold, and a burst
/// valve shuts where a hose has burst only.
bool is_never_shut(const PlannedPart& part) {
  constexpr std::array<std::string_view, 2> that_shut{"needle", "cam_valve"};
  return stays_open(part) && !is_among(part, that_shut);
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

/// Whether a spool joins two ports in any of its positions.
template <class Layout>
bool ever_joins(const Values& v, int from, int to) {
  return std::ranges::any_of(Layout::positions(v), [&](const Position& position) {
    return std::ranges::any_of(Layout::paths, [&](const Path& path) {
      const bool these = (path.from == from && path.to == to) || (path.from == to && path.to == from);
      return these && directional::has_path(position, path);
    });
  });
}

/// Whether oil under pressure gets out of a part where it stands at one port, to another.
bool lets_out(const PlannedPart& part, int from_port, int to_port) {
  const std::string_view from = part.kind->ports[from_port].name, to = part.kind->ports[to_port].name;
  const std::string_view kind = part.kind->about.kind;
  if (part.kind->about.role == Role::one_way) return from == "A" && to == "B";
  if (kind == "sequence") return part.values.word("reverse_check") == 1 && from == "B" && to == "A";
  if (kind == "counterbalance") return from == "B" && to == "A";
  if (kind == "directional_4_3") return ever_joins<directional::FourThree>(part.values, from_port, to_port);
  if (kind == "directional_4_2") return ever_joins<directional::FourTwo>(part.values, from_port, to_port);
  if (kind == "directional_3_2") return ever_joins<directional::ThreeTwo>(part.values, from_port, to_port);
  // Its drain takes nothing below the setting.
  if (kind == "reducing") return from != "T" && to != "T";
  return opens_by_hand(part);
}

/// Its plunger goes back and takes the pressure off: what stands behind it is not held.
bool is_let_off_by_intensifier(const Sight& sight, const HeldLine& line) {
  if (line.has_accumulator) return false;
  return std::ranges::any_of(sight.all({"intensifier"}),
                             [&](int p) { return sight.touches(line.zone, *sight.port(p, "B")); });
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
    const bool holds = line.has_accumulator || !line.actuators.empty();
    if (holds && !is_let_off_by_intensifier(sight, line)) found.push_back(std::move(line));
  }
  return found;
}

bool can_be_let_off(const Sight& sight, int group, LetOff how) {
  struct Visit {
    int group = 0, through = -1;  ///< the part by which it was come to
  };
  std::set<int> seen{group};
  std::vector<Visit> to_visit{{group}};
  while (!to_visit.empty()) {
    const auto [here, through] = to_visit.back();
    to_visit.pop_back();
    if (sight.has_reservoir({here})) return true;
    for (const PortOf& at : sight.members(here)) {
      const Port& port = sight.plan.port(at);
      if (port.domain != Domain::oil || port.pilot) continue;
      // In one position of a valve: in by P to a work port, and out by that to tank in another, is none.
      if (how == LetOff::in_one_position && at.part == through) continue;
      for (const PortOf& other : sight.oil_ports(at.part)) {
        if (other == at || !lets_out(sight.part(at.part), at.port, other.port)) continue;
        if (seen.insert(sight.group(other)).second) to_visit.push_back({sight.group(other), at.part});
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

std::string fitting_scale(const Sight& sight, double reading) {
  return fmt::format("between {} and {}", sight.say(reading / 0.75, Quantity::pressure),
                     sight.say(reading / 0.5, Quantity::pressure));
}

BeforeGauge before_gauge(const Sight& sight, int gauge, std::span<const std::string_view> kinds) {
  BeforeGauge found;
  const auto side = sight.reach(PortOf{gauge, 0}, through_lines);
  for (const PortOf& at : sight.ports_in(side)) {
    const PlannedPart& part = sight.part(at.part);
    if (through_lines(part) || sight.is_one_of(at.part, {"gauge", "pressure_switch"})) continue;
    if (found.part >= 0 || !is_among(part, kinds)) return {};
    found = {at.part, {at.part, 1 - at.port}};
  }
  return found;
}

int gauge_beside(const Sight& sight, PortOf at) {
  constexpr std::array<std::string_view, 4> its_own{"snubber", "capillary", "needle", "shut_off"};
  const std::set<int> open = sight.reach(at, is_never_shut);
  for (int gauge : sight.all({"gauge"})) {
    const BeforeGauge before = before_gauge(sight, gauge, its_own);
    const PortOf shown = before.part >= 0 ? before.line : PortOf{gauge, 0};
    if (sight.touches(open, shown)) return gauge;
  }
  return -1;
}

}  // namespace poise::rules
