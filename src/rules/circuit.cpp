// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The circuit as a whole: what is seen in the graph alone.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

#include "rules/chapters.hpp"
#include "rules/sight.hpp"

namespace poise::rules {
namespace {

void look_for_limits(const Sight& sight, Report& report) {
  for (int pump : sight.all(Role::source)) {
    const auto outlet = sight.port(pump, "P");
    if (!outlet || !sight.limits_of(*outlet).empty()) continue;
    const auto rated = sight.given(pump, "rated_pressure");
    const std::string beyond =
        rated ? fmt::format("past the {} that it is rated for", sight.say(*rated, Quantity::pressure))
              : fmt::format("with its {}", sight.say(sight.pump_flow(pump), Quantity::flow));
    report.add(
        pump,
        fmt::format("{} has no relief valve with an open way to it and from it to the reservoir: "
                    "dead-headed, it raises "
                    "the pressure {} until something bursts",
                    sight.tag(pump), beyond),
        fmt::format("Put a relief valve at the outlet of {}, with no check, shut-off or other valve between, "
                    "and none from it to the reservoir",
                    sight.tag(pump)));
  }
}

/// Looks for a ring of one-way parts from `at`, depth first; `way` holds the parts on the present way.
bool find_ring(const Sight& sight, int at, std::vector<int>& way, std::set<int>& done) {
  if (const auto again = std::ranges::find(way, at); again != way.end()) {
    way.erase(way.begin(), again);
    return true;
  }
  if (!done.insert(at).second) return false;
  way.push_back(at);
  for (const PortOf& next : sight.members(sight.group({at, 1}))) {
    if (next.port == 0 && sight.role(next.part) == Role::one_way && find_ring(sight, next.part, way, done))
      return true;
  }
  way.pop_back();
  return false;
}

void look_for_rings(const Sight& sight, Report& report) {
  std::set<int> done;
  for (int check : sight.all(Role::one_way)) {
    std::vector<int> way;
    if (!find_ring(sight, check, way, done)) continue;
    std::string ring;
    for (int part : way) ring += sight.tag(part) + " → ";
    report.add(
        way.front(),
        fmt::format(
            "{}{} is a ring of {} checks that all point the same way: oil can run round it, and no side of "
            "it is held",
            ring, sight.tag(way.front()), way.size()),
        fmt::format("Turn one of them round, or take {} out", sight.tag(way.back())));
  }
}

std::string usable(const Sight& sight, int reservoir) {
  return sight.say(sight.values(reservoir)["usable_oil"], Quantity::volume);
}

void look_at_reservoirs(const Sight& sight, Report& report) {
  const auto all = sight.all(Role::reservoir);
  for (std::size_t i = 1; i < all.size(); ++i) {
    const int a = all[0], b = all[i];
    if (sight.group({a, 0}) == sight.group({b, 0})) continue;
    if (sight.reach_everything({a, 0}).contains(sight.group({b, 0}))) {
      report.add(
          b,
          fmt::format(
              "{} ({}) and {} ({}) are two reservoirs apart in one circuit: oil drawn from one may come back "
              "to the other until one is empty",
              sight.tag(a), usable(sight, a), sight.tag(b), usable(sight, b)),
          "Join their ports, or use one");
    } else {
      report.add(b,
                 fmt::format("{} ({}) and {} ({}) belong to two circuits that share no oil", sight.tag(a),
                             usable(sight, a), sight.tag(b), usable(sight, b)),
                 "Join the circuits if a line is missing, or make two jobs of them");
    }
  }
}

/// Parts whose pistons are one body can start in one place only: that of the first.
void look_at_starts(const Sight& sight, Report& report) {
  for (const auto& members : sight.groups().members) {
    if (sight.plan.port(members.front()).domain != Domain::motion) continue;
    std::optional<double> first;
    PortOf first_at;
    for (const PortOf& at : members) {
      const PlannedPart& part = sight.part(at.part);
      const Laws laws = part.kind->make(part.values, sight.oil);
      const auto start = laws.body(laws.numbers.get(), at.port - part.kind->oil_ports).start;
      if (!start) continue;
      if (first && *first != *start) {
        report.add(
            at.part,
            fmt::format(
                "{} and {} are one rod but start in different positions, {} and {}; that of {} is taken for "
                "both",
                sight.name(first_at), sight.name(at), sight.say(*first, Quantity::length),
                sight.say(*start, Quantity::length), sight.tag(first_at.part)),
            fmt::format("Give {} the start_position {}", sight.tag(at.part),
                        sight.say(*first, Quantity::length)));
      }
      if (!first) {
        first = start;
        first_at = at;
      }
    }
  }
}

constexpr std::array<std::string_view, 6> pumps{
    "pump", "two_stage_pump", "variable_pump", "air_driven_pump", "hand_pump", "shaft_pump"};
constexpr std::array<std::string_view, 2> checks{"check", "pilot_operated_check"};
constexpr std::array<std::string_view, 1> tanks{"reservoir"};
constexpr std::array<std::string_view, 4> pistons{"single_acting_cylinder", "double_acting_cylinder",
                                                  "swing_clamp", "work_support"};

constexpr std::array rules{
    TradeRule{
        .name = "relief at every pump",
        .harm = Harm::hurts,
        .holds = "Every pump has a relief valve on its outlet with an open way to it: no check, "
                 "shut-off, filter or other valve between; and no check, shut-off, coupling or other valve "
                 "from it to the reservoir, where a return filter or a cooler may stand.",
        .otherwise = "Dead-headed, the pump raises the pressure until something bursts or its motor stalls.",
        .remedy = "Put a relief valve at the pump's outlet.",
        .source = "training texts; ISO 4413 (from memory)",
        .kinds = pumps,
        .look = look_for_limits},
    TradeRule{.name = "no checks in a ring",
              .harm = Harm::works_badly,
              .holds = "Check valves do not form a ring in which all point the same way.",
              .otherwise = "Oil can run round it, and no side of it is held.",
              .remedy = "Turn one of them round.",
              .kinds = checks,
              .look = look_for_rings},
    TradeRule{.name = "one reservoir",
              .harm = Harm::works_badly,
              .holds = "All reservoirs of a circuit share their oil.",
              .otherwise = "Oil drawn from one comes back to the other until one is empty.",
              .remedy = "Join their ports, or use one.",
              .kinds = tanks,
              .look = look_at_reservoirs},
    TradeRule{
        .name = "one rod, one start",
        .harm = Harm::worth_knowing,
        .holds = "Pistons that share one rod are given the same position at the start.",
        .otherwise =
            "The first one's position is taken for all, and the others' figures are not what the job says.",
        .remedy = "Give them the same start_position.",
        .source = "how this tool joins rods",
        .kinds = pistons,
        .look = look_at_starts},
};

}  // namespace

std::span<const TradeRule> circuit_rules() { return rules; }

}  // namespace poise::rules
