// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "solve/wiring.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

namespace poise::solve {

double room_of(const std::vector<Condition>& conditions, Equations& equations) {
  double least = no_limit;
  for (const Condition& c : conditions) {
    least = std::min(least, c.room(equations.signal(c.signal)) / std::max(std::abs(c.threshold), 1e-9));
  }
  return least;
}

void carry_out(const std::vector<Command>& commands, double now, Equations& equations) {
  for (const Command& c : commands) {
    Drive& drive = equations.drives()[c.part][c.input];
    // On top of an unfinished command a value goes on from where it is; a spool, which has no half-way
    // position, from where it was going.
    const Kind& kind = *equations.circuit().parts[c.part].kind;
    const double from = kind.parameters[kind.inputs[c.input]].no_half_way ? drive.to : drive.at(now).now();
    drive = {from, c.target, now, c.ramp};
  }
}

double next_break(double now, const Equations& equations) {
  double next = no_limit;
  for (const auto& part : equations.drives()) {
    for (const Drive& d : part) {
      if (d.begin + d.duration > now) next = std::min(next, d.begin + d.duration);
    }
  }
  return next;
}

Event event_of(const Control& control, double now, const Circuit& circuit) {
  std::string tags;
  for (const Command& c : control.commands)
    tags.append(tags.empty() ? "" : ", ").append(circuit.parts[c.part].tag);
  return {.time = now,
          .part = control.commands.front().part,
          .sentence = fmt::format("control \"{}\" sets {}", control.name, tags),
          .control = control.name};
}

Wiring::Wiring(const Controls& controls) {
  for (const Control& control : controls) {
    if (control.commands.empty() || control.when.empty())
      throw std::logic_error("a control needs a condition and a command");
    wires_.push_back({&control});
  }
}

void Wiring::crossings(Equations& equations, double* values) const {
  for (const Wire& wire : wires_) {
    const double room = room_of(wire.control->when, equations);
    *values++ = wire.acted ? -room : room;
  }
}

std::vector<const Control*> Wiring::due(Equations& equations, double now, std::span<const int> crossed) {
  constexpr double clearly = 1e-9;  // a located crossing stands a rounding to either side of zero
  const double least = now > 0.0 ? clearly : 0.0;
  std::vector<const Control*> due;
  for (std::size_t i = 0; i < wires_.size(); ++i) {
    Wire& wire = wires_[i];
    const double room = room_of(wire.control->when, equations);
    const bool located = !crossed.empty() && crossed[i] > 0;
    const bool turns = wire.acted ? room < -clearly : room >= least;
    if (!turns && !located) continue;
    wire.acted = !wire.acted;
    if (wire.acted) due.push_back(wire.control);
  }
  return due;
}

}  // namespace poise::solve
