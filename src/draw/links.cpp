// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/links.hpp"

#include <algorithm>

#include "circuit/join.hpp"

namespace poise::draw {
namespace {

bool is_reservoir(const Plan& plan, PortOf p) { return plan.parts[p.part].kind->about.kind == "reservoir"; }

bool is_suction(const Plan& plan, PortOf p) {
  return plan.parts[p.part].kind->about.role == Role::source && p.port == 0;
}

/// The port that stands on the reservoir: a pump's suction, else one behind which a pump sucks, else the
/// first.
PortOf drawn_on_reservoir(const Plan& plan, const Groups& groups, const std::vector<PortOf>& others) {
  for (PortOf p : others) {
    if (is_suction(plan, p)) return p;
  }
  for (PortOf p : others) {
    const int oil_ports = plan.parts[p.part].kind->oil_ports;
    for (int other = 0; other < oil_ports && oil_ports == 2; ++other) {
      if (other == p.port) continue;
      const auto& beyond = groups.members[groups.group_of[p.part][other]];
      if (std::ranges::any_of(beyond, [&](PortOf q) { return is_suction(plan, q); })) return p;
    }
  }
  return others.front();
}

}  // namespace

Links links_of(const Plan& plan) {
  Links links;
  for (const PlannedPart& part : plan.parts) links.of.emplace_back(part.kind->ports.size());
  const Groups groups = join(plan);
  for (const auto& members : groups.members) {
    if (members.size() < 2) continue;
    std::vector<PortOf> reservoirs, others;
    for (PortOf p : members) (is_reservoir(plan, p) ? reservoirs : others).push_back(p);
    std::vector<PortOf> wire = members;
    if (!reservoirs.empty() && !others.empty()) {
      const PortOf stands = drawn_on_reservoir(plan, groups, others);
      wire = reservoirs;
      wire.push_back(stands);
      for (PortOf p : others) {
        if (p != stands) links.of[p.part][p.port].reservoir = reservoirs.front().part;
      }
    }
    for (PortOf p : wire) links.of[p.part][p.port].wire = static_cast<int>(links.wires.size());
    links.wires.push_back(std::move(wire));
  }
  return links;
}

}  // namespace poise::draw
