// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <stdexcept>

#include "circuit/circuit.hpp"
#include "circuit/join.hpp"

namespace poise {
namespace {

std::string name_of(const Plan& plan, const std::vector<PortOf>& ports) {
  constexpr std::size_t shown = 3;
  std::string name;
  for (std::size_t i = 0; i < ports.size() && i < shown; ++i) name += (i ? ", " : "") + plan.name(ports[i]);
  return ports.size() > shown ? name + ", …" : name;
}

OilNode make_oil_node(const Plan& plan, const std::vector<PortOf>& ports,
                      const std::vector<PlacedPart>& parts) {
  OilNode node{.name = name_of(plan, ports), .ports = ports};
  for (const PortOf& at : ports) {
    const PlacedPart& part = parts[at.part];
    const Space space = part.laws.space(part.laws.numbers.get(), at.port);
    const FreeSurface surface = part.laws.free_surface(part.laws.numbers.get());
    node.volume += space.volume;
    node.wall += space.wall;
    if (surface.usable > 0.0) {
      node.free_surface = true;
      node.band += surface.band;
    }
    for (int m = 0; m < part.kind->motion_ports; ++m) {
      if (space.swept[m] != 0.0) node.swept.emplace_back(part.body[m], space.swept[m]);
    }
  }
  return node;
}

BodyNode make_body(const Plan& plan, const std::vector<PortOf>& ports, const std::vector<PlacedPart>& parts) {
  BodyNode node{.name = name_of(plan, ports), .ports = ports};
  bool placed = false;
  for (const PortOf& at : ports) {
    const PlacedPart& part = parts[at.part];
    const Body body = part.laws.body(part.laws.numbers.get(), at.port - part.kind->oil_ports);
    node.mass += body.mass;
    if (body.start && !placed) {
      node.start = *body.start;
      placed = true;
    }
  }
  return node;
}

}  // namespace

int Circuit::find_part(std::string_view tag) const {
  for (int i = 0; i < static_cast<int>(parts.size()); ++i) {
    if (parts[i].tag == tag) return i;
  }
  return -1;
}

Circuit build(const Plan& plan) {
  if (!faults_of(plan).empty()) throw std::logic_error("build was given a plan with faults");
  Circuit circuit{.oil = Oil(plan.oil)};
  const Groups groups = join(plan);
  std::vector<int> index_of_group(groups.members.size(), -1);  // among nodes or bodies
  int nodes = 0, bodies = 0;
  for (std::size_t g = 0; g < groups.members.size(); ++g) {
    const bool oil = plan.port(groups.members[g].front()).domain == Domain::oil;
    index_of_group[g] = oil ? nodes++ : bodies++;
  }
  for (std::size_t p = 0; p < plan.parts.size(); ++p) {
    const PlannedPart& planned = plan.parts[p];
    PlacedPart part{
        planned.tag, planned.kind, planned.values, planned.kind->make(planned.values, circuit.oil), {}, {}};
    for (std::size_t k = 0; k < planned.kind->ports.size(); ++k) {
      const int index = index_of_group[groups.group_of[p][k]];
      (planned.kind->ports[k].domain == Domain::oil ? part.oil : part.body).push_back(index);
    }
    circuit.parts.push_back(std::move(part));
  }
  for (const auto& ports : groups.members) {
    if (plan.port(ports.front()).domain == Domain::oil) {
      circuit.nodes.push_back(make_oil_node(plan, ports, circuit.parts));
    } else {
      circuit.bodies.push_back(make_body(plan, ports, circuit.parts));
    }
  }
  return circuit;
}

}  // namespace poise
