// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/people.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "rules/trapped.hpp"

namespace poise::rules {
namespace {

constexpr double moves = 1 * si::mm;    // less crushes nobody
constexpr double stands = 3 * si::bar;  // what a fitting that is opened lets go harmlessly
constexpr std::size_t most_named = 4;

/// "C1, C2, C3, C4 and 2 others"
std::string listed(const std::vector<std::string>& names) {
  std::string text;
  const std::size_t named = names.size() > most_named + 1 ? most_named : names.size();
  for (std::size_t i = 0; i < named; ++i) {
    const bool last = i + 1 == names.size();
    text += (i == 0 ? "" : last ? " and " : ", ") + names[i];
  }
  if (named < names.size()) text += fmt::format(" and {} others", names.size() - named);
  return text;
}

/// The part's greatest push on what it moves, N, and whether it moves at all.
struct Push {
  bool moves = false;
  double force = 0.0;
};

Push push_of(const Sight& sight, int part) {
  Push push;
  const auto& kind = *sight.part(part).kind;
  for (int i = 0; i < kind.motion_ports; ++i) {
    const Course way = sight.position(part, i);
    if (way && !kind.ports[kind.oil_ports + i].turns)
      push.moves |= way.highest().value - way.lowest().value > moves;
    if (kind.ports[kind.oil_ports + i].turns)
      push.moves |= std::abs(sight.speed(part, i).greatest().value) > 0.1;
  }
  for (const Output& output : kind.outputs) {
    if (output.quantity == Quantity::force && output.name != "buckling_load" && output.name != "capacity")
      push.force = std::max(push.force, std::abs(sight.output(part, output.name).greatest().value));
  }
  return push;
}

void crush(const Sight& sight, std::vector<std::string>& said) {
  std::vector<std::string> names;
  double force = 0.0;
  for (int part : sight.all(Role::actuator)) {
    const Push push = push_of(sight, part);
    if (!push.moves) continue;
    names.push_back(sight.tag(part));
    force = std::max(force, push.force);
  }
  if (names.empty()) return;
  const std::string with =
      force > 0.0 ? fmt::format(" with up to {}", sight.say(force, Quantity::force)) : std::string();
  said.push_back(
      fmt::format("Crush: {} move{}{}. Keep hands and feet out, by a guard or a control for two hands.",
                  listed(names), names.size() == 1 ? "s" : "", with));
}

void load(const Sight& sight, std::vector<std::string>& said) {
  std::vector<std::string> names;
  double weight = 0.0;
  for (int part : sight.all({"mass", "rigid_load"})) {
    if (sight.is(part, "mass") && std::abs(sight.values(part)["slope"]) < 5 * si::degree) continue;
    const Course way = sight.position(part);
    if (!way || way.highest().value - way.lowest().value <= moves) continue;
    names.push_back(sight.tag(part));
    weight += sight.values(part)["mass"];
  }
  if (names.empty()) return;
  said.push_back(
      fmt::format("Falling load: {} weigh{} {}. Nobody goes or reaches under what oil alone holds: stands, "
                  "blocks or lock "
                  "nuts first.",
                  listed(names), names.size() == 1 ? "s" : "", sight.say(weight, Quantity::mass)));
}

void pressure(const Sight& sight, std::vector<std::string>& said) {
  std::set<int> everywhere;
  for (int group = 0; group < static_cast<int>(sight.groups().members.size()); ++group) {
    if (sight.plan.port(sight.members(group).front()).domain == Domain::oil) everywhere.insert(group);
  }
  const auto highest = sight.highest(everywhere);
  if (!highest || highest->peak.value < goes_through_skin) return;
  said.push_back(
      fmt::format("Injection: oil at up to {} goes through skin and gloves. Look for leaks with cardboard, "
                  "never with a hand; "
                  "after an injection go to a hospital at once, however small it looks.",
                  sight.say(highest->peak.value, Quantity::pressure)));
  const bool hoses = !sight.all({"hose"}).empty();
  said.push_back(fmt::format("Burst: {} can fail at {}. Stand clear of {} and look at {} before each shift.",
                             hoses ? "a hose or fitting" : "a fitting",
                             sight.say(highest->peak.value, Quantity::pressure),
                             hoses ? "hoses under pressure, restrain their ends," : "lines under pressure",
                             hoses ? "them" : "joints"));
}

void stored(const Sight& sight, std::vector<std::string>& said) {
  double highest = 0.0;
  PortOf at;
  const double end = sight.trace().time.back();
  for (int group = 0; group < static_cast<int>(sight.groups().members.size()); ++group) {
    const PortOf port = sight.members(group).front();
    if (sight.plan.port(port).domain != Domain::oil) continue;
    const double left = sight.pressure(port).at(end);
    if (left > highest) {
      highest = left;
      at = port;
    }
  }
  const bool gas = !sight.all({"accumulator"}).empty();
  if (highest < stands && !gas) return;
  const std::string where =
      highest < stands
          ? std::string("The accumulator can keep pressure when the pump stands")
          : fmt::format("{} stand at {} when the cycle ends{}", sight.say(highest, Quantity::pressure),
                        sight.name(at), gas ? ", and the accumulator keeps its own" : "");
  said.push_back(fmt::format(
      "Stored energy: {}. Before a fitting is opened: loads down, pump locked off, every valve worked, "
      "every trapped place bled and read at zero.",
      where));
}

}  // namespace

std::vector<std::string> for_people(const Sight& sight) {
  std::vector<std::string> said;
  if (!sight.ran()) return said;
  load(sight, said);
  crush(sight, said);
  pressure(sight, said);
  stored(sight, said);
  return said;
}

}  // namespace poise::rules
