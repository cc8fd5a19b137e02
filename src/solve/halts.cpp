// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "solve/halts.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace poise::solve {

Halt stuck_at(const Integrator& integrator, const Equations& equations) {
  return {
      Halt::Why::stuck, integrator.time(),
      fmt::format("at {:.4g} s {} changes faster than can be followed: are the response times, volumes and "
                  "stiffnesses around it right?",
                  integrator.time(), equations.name_of(integrator.hardest_unknown()))};
}

Halt no_room_at(double time, const Circuit& circuit) {
  const auto without = std::ranges::find_if(circuit.nodes, [&](const OilNode& node) {
    double volume = node.volume;
    for (const auto& [body, area] : node.swept) volume += area * circuit.bodies[body].start;
    return !(volume > 0.0);
  });
  return {Halt::Why::stuck, time,
          fmt::format("there is no room for oil at {} where the rods start: do they start within their "
                      "strokes?",
                      without == circuit.nodes.end() ? "some port" : without->name)};
}

Halt given_up_at(const Integrator& integrator, const Equations& equations) {
  return {
      Halt::Why::stuck, integrator.time(),
      fmt::format("at {:.4g} s the run was given up after {} steps of calculation, where {} changes "
                  "fastest: is there something that switches to and fro or rings without an end? A "
                  "shorter cycle would come to its end",
                  integrator.time(), integrator.steps(), equations.name_of(integrator.hardest_unknown()))};
}

Halt burst_at(const Integrator& integrator, Equations& equations) {
  equations.observe(integrator.time(), integrator.y().data());
  int highest = 0;
  for (int n = 0; n < equations.layout().nodes; ++n) {
    if (equations.pressure(n) > equations.pressure(highest)) highest = n;
  }
  return {Halt::Why::burst, integrator.time(),
          fmt::format("at {:.4g} s the pressure at {} passes all that parts of this trade withstand "
                      "and nothing limits it: "
                      "something would burst; is there a relief valve with an open way to it?",
                      integrator.time(), equations.circuit().nodes[highest].name)};
}

}  // namespace poise::solve
