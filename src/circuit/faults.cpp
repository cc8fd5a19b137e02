// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>

#include "circuit/circuit.hpp"
#include "circuit/join.hpp"

namespace poise {
namespace {

bool is_plugged(const Plan& plan, PortOf port) {
  return std::ranges::find(plan.plugged, port) != plan.plugged.end();
}

void check_joint(const Plan& plan, const Joint& joint, std::vector<Remark>& found) {
  for (const PortOf& end : {joint.a, joint.b}) {
    const Port& port = plan.port(end);
    const Values& values = plan.parts[end.part].values;
    if (port_exists(port, values)) continue;
    found.push_back({joint.place, fmt::format("{} does not exist on this part: it has that port only with {}",
                                              plan.name(end), condition_of(port, values.table()))});
  }
  if (plan.port(joint.a).domain != plan.port(joint.b).domain) {
    found.push_back(
        {joint.place, fmt::format("{} carries oil and {} carries motion: they cannot be joined",
                                  plan.name(plan.port(joint.a).domain == Domain::oil ? joint.a : joint.b),
                                  plan.name(plan.port(joint.a).domain == Domain::oil ? joint.b : joint.a))});
  }
  if (plan.port(joint.a).domain == plan.port(joint.b).domain &&
      plan.port(joint.a).turns != plan.port(joint.b).turns) {
    const bool first = plan.port(joint.a).turns;
    found.push_back({joint.place, fmt::format("{} turns and {} goes straight: they cannot be joined",
                                              plan.name(first ? joint.a : joint.b),
                                              plan.name(first ? joint.b : joint.a))});
  }
  if (joint.a == joint.b) {
    found.push_back({joint.place, fmt::format("{} is joined to itself", plan.name(joint.a))});
  }
}

void check_port(const Plan& plan, PortOf at, bool joined, std::vector<Remark>& found) {
  const PlannedPart& part = plan.parts[at.part];
  const Port& port = plan.port(at);
  if (joined && is_plugged(plan, at)) {
    found.push_back(
        {part.place, fmt::format("{} is plugged and joined to something as well", plan.name(at))});
  }
  if (joined || port.may_stay_free || is_plugged(plan, at) || !port_exists(port, part.values)) return;
  found.push_back(
      {part.place, fmt::format("{} ({}) is connected to nothing; join it to something in [[lines]]{}",
                               plan.name(at), port.meaning,
                               port.domain == Domain::oil
                                   ? fmt::format(", or, if it is closed on purpose, write plugged = [\"{}\"]",
                                                 plan.name(at))
                                   : std::string())});
}

}  // namespace

std::vector<Remark> faults_of(const Plan& plan) {
  std::vector<Remark> found;
  for (const Joint& joint : plan.joints) check_joint(plan, joint, found);
  const Groups groups = join(plan);
  for (const auto& members : groups.members) {
    for (const PortOf& at : members) check_port(plan, at, members.size() > 1, found);
  }
  return found;
}

}  // namespace poise
