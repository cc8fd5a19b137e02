// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <stdexcept>

#include "circuit/circuit.hpp"
#include "circuit/join.hpp"

namespace poise {
namespace {

std::string name_of(const Plan& plan, const std::vector<PortOf>& ports) {
  constexpr std::size_t shown = 3;
  std::string name;
  for (std::size_t i = 0; i < ports.size() && i < shown; ++i)
    name.append(i ? ", " : "").append(plan.name(ports[i]));
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
    node.mass += port_exists(plan.port(at), part.values) ? body.mass : 1.0;
    if (body.start && !placed) {
      node.start = *body.start;
      placed = true;
    }
  }
  return node;
}

/// A part made of several pieces between its two ports gets the others behind the plan's parts, with a volume
/// between each and the next.
void lay_pieces(Circuit& circuit, std::size_t p) {
  const int pieces = circuit.parts[p].kind->pieces(circuit.parts[p].values);
  if (pieces < 2) return;
  const PlacedPart first = circuit.parts[p];
  const Space end = first.laws.space(first.laws.numbers.get(), 0),
              begin = first.laws.space(first.laws.numbers.get(), 1);
  const int far_node = first.oil[1];
  for (int i = 1; i < pieces; ++i) {
    const int between = static_cast<int>(circuit.nodes.size());
    circuit.nodes.push_back({.name = fmt::format("{}, inside at {}/{}", first.tag, i, pieces),
                             .volume = begin.volume + end.volume,
                             .wall = begin.wall + end.wall});
    (i == 1 ? circuit.parts[p] : circuit.parts.back()).oil[1] = between;
    PlacedPart piece = first;
    piece.oil = {between, far_node};
    circuit.parts.push_back(std::move(piece));
  }
  circuit.parts[p].far_end = static_cast<int>(circuit.parts.size()) - 1;
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
    const Kind* other = planned.kind->as_built(planned.values);
    const Kind* kind = other ? other : planned.kind;
    PlacedPart part{planned.tag, kind, planned.values, kind->make(planned.values, circuit.oil), {}, {}};
    for (std::size_t k = 0; k < planned.kind->ports.size(); ++k) {
      const int index = index_of_group[groups.group_of[p][k]];
      (planned.kind->ports[k].domain == Domain::oil ? part.oil : part.body).push_back(index);
    }
    part.owner = circuit.planned++;
    circuit.parts.push_back(std::move(part));
  }
  for (const auto& ports : groups.members) {
    if (plan.port(ports.front()).domain == Domain::oil) {
      circuit.nodes.push_back(make_oil_node(plan, ports, circuit.parts));
    } else {
      circuit.bodies.push_back(make_body(plan, ports, circuit.parts));
    }
  }
  for (std::size_t p = 0; p < plan.parts.size(); ++p) lay_pieces(circuit, p);
  return circuit;
}

}  // namespace poise
