// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/drawing.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "draw/moment.hpp"
#include "draw/show.hpp"
#include "draw/svg.hpp"
#include "draw/words.hpp"

namespace poise::desk {
namespace {

draw::Look look_at(const Job& job) {
  draw::Look look{.block = {}, .world = job.world};
  look.block.job = job.title;
  return look;
}

std::string names_of(const Plan& plan, const std::vector<PortOf>& ports) {
  std::string names;
  for (const PortOf& port : ports) names += (names.empty() ? "" : " ") + plan.name(port);
  return names;
}

std::string hexadecimal(const draw::Colour& c) {
  return fmt::format("#{:02x}{:02x}{:02x}", c.red, c.green, c.blue);
}

}  // namespace

draw::Schematic set_down(const Job& job) {
  if (job.plan.parts.empty()) return {};
  return draw::arrange(job.plan, draw::words_of(job), draw::wishes_of(job));
}

std::string drawing(const Job& job, const draw::Schematic& schematic) {
  if (schematic.symbols.empty()) return {};
  return draw::svg(draw::unframed_sheet_of(schematic, job.plan, draw::words_of(job), look_at(job)));
}

std::string drawing(const Proof& proof, std::size_t frame) {
  const draw::DrawnMoment moment =
      draw::drawn_moment(proof.schematic(), proof.circuit, proof.trace.moments[frame]);
  draw::Look look = look_at(proof.job);
  look.moment = &moment;
  look.scale = proof.scale;
  return draw::svg(
      draw::unframed_sheet_of(proof.schematic(), proof.job.plan, draw::words_of(proof.job), look));
}

Json legend(const Proof& proof) {
  Json stops = Json::array();
  for (const double pressure : proof.scale.steps) {
    stops.push_back({{"value", units::in_unit(pressure, Quantity::pressure, proof.job.world)},
                     {"text", units::show(pressure, Quantity::pressure, proof.job.world)},
                     {"colour", hexadecimal(proof.scale.at(pressure))}});
  }
  return {{"stops", std::move(stops)}};
}

std::optional<std::array<std::vector<std::string>, 2>> sides(const Job& job, const draw::Schematic& schematic,
                                                             const std::string& line, double x, double y) {
  const Plan& plan = job.plan;
  const draw::Mapping mapping = draw::unframed(schematic);
  const draw::Sheet sheet = draw::unframed_sheet_of(schematic, plan, draw::words_of(job), look_at(job));
  const draw::Point at{(x - mapping.origin.x) / mapping.module,
                       (sheet.height - y - mapping.origin.y) / mapping.module};
  std::array<std::vector<std::string>, 2> named;
  for (const draw::Wire& wire : schematic.wires) {
    if (wire.mechanical || names_of(plan, wire.ports) != line) continue;
    const auto found = draw::WireTree(wire, schematic).sides(at);
    for (std::size_t i = 0; i < 2; ++i) {
      for (const PortOf& port : found[i]) named[i].push_back(plan.name(port));
    }
    return named;
  }
  for (const draw::TankMark& tank : schematic.tanks) {
    const std::string port = plan.name(tank.port), mouth = plan.parts[tank.reservoir].tag;
    if (port + " " + mouth != line) continue;
    const std::string_view name = plan.parts[tank.reservoir].kind->ports[0].name;
    return std::array{std::vector{port}, std::vector{mouth + "." + std::string(name)}};
  }
  return std::nullopt;
}

}  // namespace poise::desk
