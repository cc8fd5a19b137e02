// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Which parts act in a fault and hold its harm off, and which oil stays pressed behind it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "study/fault_compare.hpp"

namespace poise::study {
namespace {

constexpr double opens_more = 1.5, least_passed = 10 * si::cm3;     // over a relief valve
constexpr double carries_more = 1.5, least_carried = 0.5 * si::kN;  // by a lock nut
constexpr double holds_more = 1.2, least_held = 10 * si::bar;       // over a check
constexpr double stands_still = 20 * si::cm3_per_minute;            // past a valve that holds
constexpr double injects = 7 * si::bar;

/// Oil that went into a part at a port, backflow not counted, m3.
double passed(const Trace& trace, int column) {
  double sum = 0.0;
  for (std::size_t i = 1; i < trace.time.size(); ++i) {
    const double mean =
        0.5 * (std::max(trace.values[column][i - 1], 0.0) + std::max(trace.values[column][i], 0.0));
    sum += mean * (trace.time[i] - trace.time[i - 1]);
  }
  return sum;
}

struct Highest {
  double value = 0.0, time = 0.0;
};
Highest highest(const Trace& trace, int column) {
  const auto& values = trace.values[column];
  const auto at = std::ranges::max_element(values);
  return {*at, trace.time[at - values.begin()]};
}

std::string step_of(const Trace& trace, double time) {
  for (const StepSpan& span : trace.steps) {
    if (time <= span.end) return span.name;
  }
  return trace.steps.empty() ? "" : trace.steps.back().name;
}

void relief(const Compared& compared, int p, std::vector<std::string>& all) {
  const int flow = compared.column(Signal::What::flow, p, 0);
  const int pressure = compared.column(Signal::What::pressure, p, 0);
  const Trace& trace = compared.run.trace;
  const double sound = passed(compared.nominal.trace, flow), now = passed(trace, flow);
  if (now < opens_more * sound + least_passed) return;
  const Highest most = highest(trace, flow);
  all.push_back(fmt::format("{} opens: {} over it, {} at it in \"{}\" (sound: {})", compared.part(p).tag,
                            compared.show(now, Quantity::volume),
                            compared.show(compared.faulty(pressure, most.time), Quantity::pressure),
                            step_of(trace, most.time), compared.show(sound, Quantity::volume)));
}

/// A mode that turns on here and never on the sound machine.
void trips(const Compared& compared, int p, std::string_view word, std::vector<std::string>& all) {
  const int mode = compared.column(Signal::What::mode, p, 0);
  if (highest(compared.nominal.trace, mode).value > 0.5) return;
  const Highest on = highest(compared.run.trace, mode);
  if (on.value > 0.5)
    all.push_back(
        fmt::format("{} {} in \"{}\"", compared.part(p).tag, word, step_of(compared.run.trace, on.time)));
}

void lock_nut(const Compared& compared, int p, std::vector<std::string>& all) {
  const int force = compared.column(Signal::What::output, p, 0);
  const double sound = highest(compared.nominal.trace, force).value;
  const Highest now = highest(compared.run.trace, force);
  if (now.value < carries_more * sound + least_carried) return;
  all.push_back(fmt::format("{} takes {} in \"{}\"", compared.part(p).tag,
                            compared.show(now.value, Quantity::force),
                            step_of(compared.run.trace, now.time)));
}

/// The pressure over a valve that holds its port `held` shut against `other`, at the ends of steps.
void holds(const Compared& compared, int p, int held, int other, std::vector<std::string>& all) {
  const int load = compared.column(Signal::What::pressure, p, held);
  const int line = compared.column(Signal::What::pressure, p, other);
  const int flow = compared.column(Signal::What::flow, p, held);
  for (const SameMoment& moment : compared.moments()) {
    const double sound = compared.sound(load, moment.sound) - compared.sound(line, moment.sound);
    const double now = compared.faulty(load, moment.faulty) - compared.faulty(line, moment.faulty);
    if (now < std::max(holds_more * sound, sound + least_held) || now < least_held) continue;
    if (std::abs(compared.faulty(flow, moment.faulty)) > stands_still) continue;
    all.push_back(fmt::format("{} holds {} {}", compared.part(p).tag,
                              compared.show(compared.faulty(load, moment.faulty), Quantity::pressure),
                              moment.words(compared.run.trace)));
    return;
  }
}

/// The first of the job's own ports at an oil node whose pressure was recorded, and its column; else −1.
struct Pressed {
  PortOf at;
  int column = -1;
};
Pressed pressure_of_node(const Compared& compared, const OilNode& node) {
  for (const PortOf& at : node.ports) {
    if (at.part >= compared.parts()) continue;
    const int column = compared.column(Signal::What::pressure, at.part, at.port);
    if (column >= 0) return {at, column};
  }
  return {};
}

/// Whether a line joins the node to one that is listed already.
bool joined_to_listed(const Compared& compared, const OilNode& node, std::span<const int> listed) {
  const Circuit& circuit = compared.nominal.circuit;
  return std::ranges::any_of(node.ports, [&](PortOf at) {
    if (at.part >= compared.parts() || circuit.parts[at.part].kind->about.role != Role::line) return false;
    return std::ranges::any_of(listed, [&](int each) {
      return circuit.node_of(at.part, 0) == each || circuit.node_of(at.part, 1) == each;
    });
  });
}

}  // namespace

std::vector<std::string> protects_in(const Compared& compared, std::span<const std::string> blamed) {
  std::vector<std::string> all;
  if (!compared.has_rows()) return all;
  for (int p = 0; p < compared.parts(); ++p) {
    const PlannedPart& part = compared.part(p);
    if (std::ranges::find(blamed, part.tag) != blamed.end()) continue;
    const std::string_view kind = part.kind->about.kind;
    if (part.kind->about.role == Role::pressure_limit) relief(compared, p, all);
    if (kind == "hose_burst_valve") trips(compared, p, "trips", all);
    if (kind == "pressure_switch") trips(compared, p, "switches on", all);
    if (kind == "lock_nut") lock_nut(compared, p, all);
    if (kind == "pilot_operated_check") holds(compared, p, 1, 0, all);
    if (kind == "counterbalance") holds(compared, p, 0, 1, all);
  }
  return all;
}

std::vector<std::string> left_pressed_in(const Compared& compared) {
  std::vector<std::string> all;
  if (!compared.has_rows() || compared.nominal.trace.time.empty()) return all;
  const auto& halt = compared.run.trace.halt;
  if (halt && halt->why != Halt::Why::waited) return all;  // cut off in mid-step: nothing is left behind yet
  std::vector<int> listed;
  const double sound_end = compared.nominal.trace.time.back(), end = compared.run.trace.time.back();
  const auto& nodes = compared.nominal.circuit.nodes;
  for (int n = 0; n < static_cast<int>(nodes.size()); ++n) {
    const auto [at, column] = pressure_of_node(compared, nodes[n]);
    if (column < 0 || compared.sound(column, sound_end) > injects) continue;
    const double now = compared.faulty(column, end);
    if (now <= injects || joined_to_listed(compared, nodes[n], listed)) continue;
    listed.push_back(n);
    all.push_back(
        fmt::format("{} {}", compared.nominal.job.plan.name(at), compared.show(now, Quantity::pressure)));
  }
  return all;
}

}  // namespace poise::study
