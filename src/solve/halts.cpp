// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "solve/halts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace poise::solve {

namespace {

/// m/s, and rad/s of what turns: thrice the speed of sound in air, or 9,500 rpm.
constexpr double runaway_speed = 1000.0;

/// Of the names of what is joined to one rod the first.
std::string rod_name(const Circuit& circuit, int body) {
  const std::string& all = circuit.bodies[static_cast<std::size_t>(body)].name;
  return all.substr(0, all.find(','));
}

/// What a rod does to a chamber that it has squeezed beyond its stop: "C1.rod runs into the end of its stroke
/// at 1.9 m/s"; empty where it is something else.
std::string squeezed(const Integrator& integrator, const Equations& equations, int unknown) {
  constexpr double fast = 0.1;  // m/s
  const Layout& layout = equations.layout();
  if (unknown >= layout.nodes) return {};
  const Circuit& circuit = equations.circuit();
  const OilNode& node = circuit.nodes[static_cast<std::size_t>(unknown)];
  double volume = node.volume;
  for (const auto& [body, area] : node.swept) volume += area * integrator.y()[layout.position(body)];
  for (const auto& [body, area] : node.swept) {
    // Retracted, a chamber has its volume at 0; that on the other side has little of it left when extended.
    const double left = area > 0.0 ? 0.9 : 0.1, speed = integrator.y()[layout.speed(body)];
    if (volume > left * node.volume || area * speed >= 0.0 || std::abs(speed) < fast) continue;
    return fmt::format(
        "{} runs into the end of its stroke at {:.2g} m/s; is there a throttle or a cushion that slows it "
        "down before?",
        rod_name(circuit, body), std::abs(speed));
  }
  return {};
}

}  // namespace

Halt stuck_at(const Integrator& integrator, const Equations& equations) {
  const int hardest = integrator.hardest_unknown();
  if (const std::string why = squeezed(integrator, equations, hardest); !why.empty()) {
    return {Halt::Why::stuck, integrator.time(),
            fmt::format("at {:.4g} s {} changes faster than can be followed: {}", integrator.time(),
                        equations.name_of(hardest), why)};
  }
  return {
      Halt::Why::stuck, integrator.time(),
      fmt::format("at {:.4g} s {} changes faster than can be followed: are the response times, volumes and "
                  "stiffnesses around it right?",
                  integrator.time(), equations.name_of(hardest))};
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

double past_all_bounds(Equations& equations, const double* y, double burst_pressure) {
  double pressure = 0.0, speed = 0.0;
  for (int n = 0; n < equations.layout().nodes; ++n) pressure = std::max(pressure, equations.pressure(n));
  for (int b = 0; b < equations.layout().bodies; ++b)
    speed = std::max(speed, std::abs(y[equations.layout().speed(b)]));
  return std::max(pressure / burst_pressure, speed / runaway_speed) - 1.0;
}

Halt bounds_passed_at(const Integrator& integrator, Equations& equations, double burst_pressure) {
  const double *y = integrator.y().data(), time = integrator.time();
  equations.observe(time, y);
  int highest = 0, fastest = 0;
  for (int n = 0; n < equations.layout().nodes; ++n) {
    if (equations.pressure(n) > equations.pressure(highest)) highest = n;
  }
  const auto speed = [&](int body) { return std::abs(y[equations.layout().speed(body)]); };
  for (int b = 0; b < equations.layout().bodies; ++b) {
    if (speed(b) > speed(fastest)) fastest = b;
  }
  const Circuit& circuit = equations.circuit();
  if (equations.layout().bodies > 0 &&
      speed(fastest) / runaway_speed > equations.pressure(highest) / burst_pressure) {
    return {Halt::Why::burst, time,
            fmt::format("at {:.4g} s {} moves faster than anything of this trade and nothing stops it: is it "
                        "on the rod of a cylinder, and are its mass and the forces on it as they are meant?",
                        time, rod_name(circuit, fastest))};
  }
  return {Halt::Why::burst, time,
          fmt::format("at {:.4g} s the pressure at {} passes all that parts of this trade withstand "
                      "and nothing limits it: "
                      "something would burst; is there a relief valve with an open way to it?",
                      time, circuit.nodes[static_cast<std::size_t>(highest)].name)};
}

}  // namespace poise::solve
