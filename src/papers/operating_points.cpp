// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The paper of operating points: the machine at the end of each step.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <span>

#include "draw/roles.hpp"
#include "draw/words.hpp"
#include "judge/nothing.hpp"
#include "papers/cycle.hpp"
#include "papers/html.hpp"
#include "papers/paper.hpp"

namespace poise::papers {
namespace {

constexpr std::size_t steps_abreast = 7;

/// A value that is looked at in each moment.
struct Row {
  std::string part, what;
  Quantity quantity;
  std::function<double(const Moment&)> of;
};

void add_pressures(std::vector<Row>& rows, const PlannedPart& part, std::size_t p) {
  for (int i = 0; i < part.kind->oil_ports; ++i) {
    if (!port_exists(part.kind->ports[i], part.values)) continue;
    rows.push_back({part.tag, fmt::format("pressure at {}", part.kind->ports[i].name), Quantity::pressure,
                    [=](const Moment& m) { return m.parts[p].pressure[i]; }});
  }
}

void add_flow(std::vector<Row>& rows, const PlannedPart& part, std::size_t p) {
  const bool source = part.kind->about.role == Role::source;
  const int port = source && part.kind->oil_ports > 1 ? 1 : 0;
  rows.push_back(
      {part.tag, source ? "flow delivered" : "flow through it", Quantity::flow,
       [=](const Moment& m) { return source ? std::abs(m.parts[p].flow[port]) : m.parts[p].flow[port]; }});
}

void add_motion(std::vector<Row>& rows, const PlannedPart& part, std::size_t p) {
  for (int i = 0; i < part.kind->motion_ports; ++i) {
    const Port& port = part.kind->ports[part.kind->oil_ports + i];
    if (!port_exists(port, part.values)) continue;
    rows.push_back({part.tag, fmt::format("position of {}", port.name),
                    port.turns ? Quantity::angle : Quantity::length,
                    [=](const Moment& m) { return m.parts[p].position[i]; }});
  }
}

void add_forces(std::vector<Row>& rows, const PlannedPart& part, std::size_t p) {
  for (std::size_t i = 0; i < part.kind->outputs.size(); ++i) {
    const Output& output = part.kind->outputs[i];
    if ((output.quantity != Quantity::force && output.quantity != Quantity::torque) ||
        output.name == "buckling_load")
      continue;
    std::string name(output.name);
    std::ranges::replace(name, '_', ' ');
    rows.push_back({part.tag, name, output.quantity, [=](const Moment& m) { return m.parts[p].outputs[i]; }});
  }
}

/// Gauges by their reading, actuators with all they do, pumps and valves by pressures and flow; lines and
/// loads say nothing that these do not.
void add_part(std::vector<Row>& rows, const Subject& subject, std::size_t p) {
  const PlannedPart& part = subject.job.plan.parts[p];
  const Kind& kind = *part.kind;
  if (kind.about.kind == "gauge") {
    rows.push_back({part.tag, "reading", Quantity::pressure,
                    [=](const Moment& m) { return m.parts[p].outputs.front(); }});
    return;
  }
  if (kind.oil_ports == 0 || kind.about.role == Role::line || kind.about.role == Role::reservoir) return;
  add_pressures(rows, part, p);
  const bool actuator = draw::is_actuator(part, subject.circuit.oil);
  if (!actuator && kind.oil_ports > 1) add_flow(rows, part, p);
  if (actuator) {
    add_motion(rows, part, p);
    add_forces(rows, part, p);
  }
}

double sum_of(const Moment& moment, double PartMoment::*power) {
  double sum = 0.0;
  for (const PartMoment& part : moment.parts) sum += part.*power;
  return sum;
}

std::vector<Row> rows_of(const Subject& subject) {
  std::vector<Row> rows;
  for (std::size_t p = 0; p < subject.job.plan.parts.size(); ++p) {
    if (subject.job.plan.parts[p].kind->about.kind == "gauge") add_part(rows, subject, p);
  }
  for (std::size_t p = 0; p < subject.job.plan.parts.size(); ++p) {
    if (subject.job.plan.parts[p].kind->about.kind != "gauge") add_part(rows, subject, p);
  }
  const auto add_sum = [&](std::string_view name, double PartMoment::*power) {
    rows.push_back(
        {"all", std::string(name), Quantity::power, [power](const Moment& m) { return sum_of(m, power); }});
  };
  add_sum("power put in", &PartMoment::shaft);
  add_sum("lost as heat", &PartMoment::heat);
  add_sum("given to outside forces", &PartMoment::delivered);
  return rows;
}

Table points(const std::vector<Row>& rows, std::span<const std::pair<std::string, const Moment*>> moments,
             const units::World& world) {
  Table table{"operating points", {{"part", 1.0}, {"what", 1.6}}, {}};
  for (const auto& [head, moment] : moments) table.columns.push_back({head, 1.2, true});
  std::string last;
  for (const Row& row : rows) {
    const auto rests = [&](const auto& m) { return is_nothing(row.of(*m.second), row.quantity); };
    if (std::ranges::all_of(moments, rests)) continue;
    std::vector<Cell> cells{{row.part == last ? "" : row.part}, {row.what}};
    last = row.part;
    for (const auto& each : moments)
      cells.push_back(rests(each) ? Cell{"–"} : measured(row.of(*each.second), row.quantity, world));
    table.rows.push_back(std::move(cells));
  }
  return table;
}

}  // namespace

std::string operating_points(const Subject& subject) {
  std::vector<std::pair<std::string, const Moment*>> moments;
  for (std::size_t step = 0; step < subject.trace.steps.size(); ++step) {
    if (const Moment* moment = end_of(step, subject))
      moments.push_back({fmt::format("{}, {}", subject.trace.steps[step].name,
                                     units::show(moment->time, Quantity::time, subject.job.world)),
                         moment});
  }
  if (moments.empty()) return html::paragraph("The run did not get to the end of a step.");
  const std::vector<Row> rows = rows_of(subject);
  std::string text = html::paragraph(
      "At the end of each step. Flow through a part counts from its first port. – is nothing; what is "
      "nothing "
      "at all of these moments is left out.");
  for (std::size_t first = 0; first < moments.size(); first += steps_abreast) {
    const auto abreast = std::span(moments).subspan(first, std::min(steps_abreast, moments.size() - first));
    text += html::table(points(rows, abreast, subject.job.world), "Nothing to show.", "small");
  }
  return text;
}

}  // namespace poise::papers
