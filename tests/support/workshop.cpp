// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "support/workshop.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace poise::workshop {

int Bench::find(std::string_view tag) const {
  for (int i = 0; i < static_cast<int>(plan.parts.size()); ++i) {
    if (plan.parts[i].tag == tag) return i;
  }
  throw std::runtime_error("no part " + std::string(tag));
}

PortOf Bench::port(std::string_view name) const {
  const auto dot = name.rfind('.');
  const int p = find(name.substr(0, dot));
  const auto& ports = plan.parts[p].kind->ports;
  for (int k = 0; k < static_cast<int>(ports.size()); ++k) {
    if (ports[k].name == name.substr(dot + 1)) return {p, k};
  }
  throw std::runtime_error("no port " + std::string(name));
}

void Bench::part(const std::string& tag, std::string_view kind_name, Numbers numbers) {
  const Kind* kind = find_kind(kind_name);
  if (!kind) throw std::runtime_error("no kind " + std::string(kind_name));
  std::vector<double> values;
  for (const Parameter& p : kind->parameters) values.push_back(p.fallback.value_or(std::nan("")));
  plan.parts.push_back({tag, kind, Values(kind->parameters, values), {}});
  for (const auto& [name, number] : numbers) set(tag, name, number);
}

void Bench::set(std::string_view tag, std::string_view parameter, double value) {
  PlannedPart& part = plan.parts[find(tag)];
  const auto index = find_parameter(part.kind->parameters, parameter);
  if (!index) throw std::runtime_error("no parameter " + std::string(parameter));
  part.values.set(*index, value);
}

void Bench::points(std::string_view tag, std::string_view parameter, Points points) {
  PlannedPart& part = plan.parts[find(tag)];
  const auto index = find_parameter(part.kind->parameters, parameter);
  if (!index) throw std::runtime_error("no parameter " + std::string(parameter));
  part.values.set_points(*index, std::move(points));
}

void Bench::join(std::initializer_list<std::string_view> ports) {
  for (auto it = ports.begin() + 1; it != ports.end(); ++it)
    plan.joints.push_back({port(*ports.begin()), port(*it), {}});
}

void Bench::plug(std::string_view name) { plan.plugged.push_back(port(name)); }

void Bench::step(const std::string& name, double lasts, std::initializer_list<Turn> turns) {
  Step step{.name = name, .lasts = lasts};
  for (const Turn& turn : turns) {
    const int p = find(turn.part);
    const Kind& kind = *plan.parts[p].kind;
    const auto parameter = find_parameter(kind.parameters, turn.parameter);
    const auto input = std::ranges::find(kind.inputs, parameter.value());
    if (input == kind.inputs.end())
      throw std::runtime_error("steps cannot set " + std::string(turn.parameter));
    step.commands.push_back({p, static_cast<int>(input - kind.inputs.begin()), turn.target, turn.ramp});
  }
  steps.push_back(std::move(step));
}

Signal Bench::signal(std::string_view name) const {
  auto found = find_signal(plan, name);
  if (!found) throw std::runtime_error("no signal " + std::string(name));
  return *found;
}

Trace Bench::run(std::initializer_list<std::string_view> signals, const solve::RunOptions& options) const {
  const auto faults = faults_of(plan);
  if (!faults.empty()) throw std::runtime_error(faults.front().sentence);
  std::vector<Signal> wanted;
  for (std::string_view name : signals) wanted.push_back(signal(name));
  const Circuit circuit = build(plan);
  return solve::run(circuit, steps, wanted, options);
}

namespace {

const std::vector<double>& column(const Trace& trace, std::string_view signal) {
  const int c = trace.column(signal);
  if (c < 0) throw std::runtime_error("not recorded: " + std::string(signal));
  return trace.values[c];
}

}  // namespace

double last(const Trace& trace, std::string_view signal) { return column(trace, signal).back(); }
double highest(const Trace& trace, std::string_view signal) {
  return *std::ranges::max_element(column(trace, signal));
}
double lowest(const Trace& trace, std::string_view signal) {
  return *std::ranges::min_element(column(trace, signal));
}

double at(const Trace& trace, std::string_view signal, double time) {
  const auto& v = column(trace, signal);
  const auto above = std::ranges::lower_bound(trace.time, time);
  if (above == trace.time.end()) return v.back();
  const auto i = static_cast<std::size_t>(above - trace.time.begin());
  if (i == 0 || trace.time[i] == trace.time[i - 1]) return v[i];
  const double u = (time - trace.time[i - 1]) / (trace.time[i] - trace.time[i - 1]);
  return v[i - 1] + u * (v[i] - v[i - 1]);
}

double first_above(const Trace& trace, std::string_view signal, double value) {
  const auto& v = column(trace, signal);
  for (std::size_t i = 0; i < v.size(); ++i) {
    if (v[i] < value) continue;
    if (i == 0 || v[i] == v[i - 1]) return trace.time[i];
    return trace.time[i - 1] + (trace.time[i] - trace.time[i - 1]) * (value - v[i - 1]) / (v[i] - v[i - 1]);
  }
  return std::numeric_limits<double>::quiet_NaN();
}

}  // namespace poise::workshop
