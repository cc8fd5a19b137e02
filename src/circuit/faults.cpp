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
    found.push_back(
        {joint.place, fmt::format("{} is joined to itself; name the port that it is to be joined to",
                                  plan.name(joint.a))});
  }
}

void check_port(const Plan& plan, PortOf at, bool joined, std::vector<Remark>& found) {
  const PlannedPart& part = plan.parts[at.part];
  const Port& port = plan.port(at);
  if (joined && is_plugged(plan, at)) {
    found.push_back(
        {part.place,
         fmt::format(
             "{} is plugged and joined to something as well; take it out of plugged, or out of its line",
             plan.name(at))});
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

/// What a part of a plan says of itself: its laws, and where what moves at a port starts.
struct Made {
  const Kind& kind;
  Laws laws;

  Made(const PlannedPart& part, const Oil& oil)
      : kind(part.kind->as_built(part.values) ? *part.kind->as_built(part.values) : *part.kind),
        laws(kind.make(part.values, oil)) {}
  std::optional<double> start(int motion) const { return laws.body(laws.numbers.get(), motion).start; }
  /// Whether a piston at this place leaves no room in a chamber of the part.
  bool is_outside(int motion, double position) const {
    for (int port = 0; port < kind.oil_ports; ++port) {
      const Space space = laws.space(laws.numbers.get(), port);
      if (space.swept[motion] != 0.0 && space.volume + space.swept[motion] * position <= 0.0) return true;
    }
    return false;
  }
};

/// What moves must weigh something: a spring and a point of a load that are joined with nothing else do not.
void check_mass(const Plan& plan, const Oil& oil, const std::vector<PortOf>& members,
                std::vector<Remark>& found) {
  if (plan.port(members.front()).domain != Domain::motion) return;
  for (const PortOf& at : members) {
    if (!port_exists(plan.port(at), plan.parts[at.part].values)) return;
    const Made part(plan.parts[at.part], oil);
    if (part.laws.body(part.laws.numbers.get(), at.port - part.kind.oil_ports).mass > 0.0) return;
  }
  found.push_back({plan.parts[members.front().part].place,
                   fmt::format("{} is joined to nothing that has a mass of its own; join it to the rod of a "
                               "cylinder, or put a mass there",
                               plan.name(members.front()))});
}

/// Rods that are joined start at one place, which must lie within the stroke of each.
void check_start(const Plan& plan, const Oil& oil, const std::vector<PortOf>& members,
                 std::vector<Remark>& found) {
  if (members.size() < 2 || plan.port(members.front()).domain != Domain::motion) return;
  std::vector<Made> parts;
  for (const PortOf& at : members) parts.emplace_back(plan.parts[at.part], oil);
  const auto motion = [&](std::size_t i) { return members[i].port - parts[i].kind.oil_ports; };
  std::size_t owner = 0;
  while (owner < parts.size() && !parts[owner].start(motion(owner))) ++owner;
  if (owner == parts.size()) return;
  const double start = *parts[owner].start(motion(owner));
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i == owner || !parts[i].is_outside(motion(i), start)) continue;
    found.push_back(
        {plan.parts[members[owner].part].place,
         fmt::format("{} and {} are joined and start where {} does, which lies beyond the stroke of {}; let "
                     "it start within the strokes of both",
                     plan.name(members[owner]), plan.name(members[i]), plan.parts[members[owner].part].tag,
                     plan.parts[members[i].part].tag)});
  }
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

std::vector<Remark> start_faults_of(const Plan& plan) {
  std::vector<Remark> found;
  const Oil oil(plan.oil);
  for (const auto& members : join(plan).members) {
    check_mass(plan, oil, members, found);
    check_start(plan, oil, members, found);
  }
  return found;
}

}  // namespace poise
