// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/moment.hpp"

#include <algorithm>
#include <cmath>

namespace poise::draw {
namespace {

/// The volume that flows into a part at a port, m3/s.
double taken_in(const Moment& moment, PortOf at) { return moment.parts[at.part].flow[at.port]; }

/// A word stands where it came from until half of the way is done, then where it goes to: of what lies
/// between their indices the part knows nothing.
double set_to(const Input& input, const Parameter& parameter) {
  if (parameter.words.empty()) return input.now();
  return input.s < 0.5 ? input.from : input.to;
}

Standing standing(const Circuit& circuit, const Moment& moment, int p) {
  const Kind& kind = *circuit.parts[p].kind;
  const PartMoment& m = moment.parts[p];
  Standing now{
      .position = m.position, .flow = m.flow, .mode = m.mode, .modes = static_cast<int>(kind.modes.size())};
  for (std::size_t i = 0; i < m.input.size(); ++i)
    now.input.push_back(set_to(m.input[i], kind.parameters[kind.inputs[i]]));
  return now;
}

/// A reservoir gives what the rest of its line takes.
WireMoment wire_moment(const Wire& wire, const Schematic& schematic, const Circuit& circuit,
                       const Moment& moment) {
  WireMoment now;
  if (wire.mechanical || wire.ports.empty()) return now;
  const PortOf first = wire.ports.front();
  now.pressure = moment.parts[first.part].pressure[first.port];
  WireTree tree(wire, schematic);
  double given = 0.0;
  std::vector<Point> reservoirs;
  for (const PortOf& at : wire.ports) {
    const Point anchor = schematic.symbols[at.part].anchors[at.port];
    if (circuit.parts[at.part].kind->about.role == Role::reservoir) {
      reservoirs.push_back(anchor);
      continue;
    }
    const double flow = taken_in(moment, at);
    tree.take(anchor, flow);
    given += flow;
  }
  for (Point p : reservoirs) tree.take(p, -given / static_cast<double>(reservoirs.size()));
  now.pieces = tree.streams();
  return now;
}

WireMoment tank_moment(const TankMark& tank, const Circuit& circuit, const Moment& moment) {
  WireMoment now{.pressure = moment.parts[tank.port.part].pressure[tank.port.port]};
  const double flow = taken_in(moment, tank.port);
  const bool pilot = circuit.parts[tank.port.part].kind->ports[tank.port.port].pilot;
  for (std::size_t i = 0; i + 1 < tank.lead.size(); ++i)
    now.pieces.push_back({{tank.lead[i], tank.lead[i + 1], pilot}, -flow});
  return now;
}

}  // namespace

DrawnMoment drawn_moment(const Schematic& schematic, const Circuit& circuit, const Moment& moment) {
  DrawnMoment now{.time = moment.time, .step = moment.step};
  for (int p = 0; p < circuit.planned; ++p) now.parts.push_back(standing(circuit, moment, p));
  for (const Wire& wire : schematic.wires) now.wires.push_back(wire_moment(wire, schematic, circuit, moment));
  for (const TankMark& tank : schematic.tanks) now.tanks.push_back(tank_moment(tank, circuit, moment));
  for (const auto* lines : {&now.wires, &now.tanks}) {
    for (const WireMoment& line : *lines) {
      for (const Stream& s : line.pieces) now.greatest_flow = std::max(now.greatest_flow, std::abs(s.flow));
    }
  }
  return now;
}

double highest_pressure(const Moment& moment) {
  double highest = 0.0;
  for (const PartMoment& part : moment.parts) {
    for (const double pressure : part.pressure) highest = std::max(highest, pressure);
  }
  return highest;
}

}  // namespace poise::draw
