// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "circuit/signal.hpp"

namespace poise {

std::vector<Signal> signals_of(const Plan& plan, int p) {
  using What = Signal::What;
  const PlannedPart& part = plan.parts[p];
  const Kind& kind = *part.kind;
  std::vector<Signal> all;
  for (int i = 0; i < kind.oil_ports; ++i) {
    if (!port_exists(kind.ports[i], part.values)) continue;
    const std::string port = part.tag + (kind.oil_ports == 1 ? "" : "." + std::string(kind.ports[i].name));
    all.push_back({What::pressure, p, i, Quantity::pressure, port + ".pressure"});
    all.push_back({What::flow, p, i, Quantity::flow, port + ".flow"});
  }
  for (int i = 0; i < kind.motion_ports; ++i) {
    const Port& port = kind.ports[kind.oil_ports + i];
    const std::string body = part.tag + (kind.motion_ports == 1 ? "" : "." + std::string(port.name));
    if (!port_exists(port, part.values)) continue;
    all.push_back(
        {What::position, p, i, port.turns ? Quantity::angle : Quantity::length, body + ".position"});
    all.push_back(
        {What::speed, p, i, port.turns ? Quantity::rate_of_turning : Quantity::speed, body + ".speed"});
  }
  for (int i = 0; i < static_cast<int>(kind.states.size()); ++i) {
    all.push_back(
        {What::state, p, i, kind.states[i].quantity, part.tag + "." + std::string(kind.states[i].name)});
  }
  for (int i = 0; i < static_cast<int>(kind.modes.size()); ++i) {
    all.push_back({What::mode, p, i, Quantity::none, part.tag + "." + std::string(kind.modes[i].name)});
  }
  for (int i = 0; i < static_cast<int>(kind.outputs.size()); ++i) {
    all.push_back(
        {What::output, p, i, kind.outputs[i].quantity, part.tag + "." + std::string(kind.outputs[i].name)});
  }
  return all;
}

std::optional<Signal> find_signal(const Plan& plan, std::string_view name) {
  for (int p = 0; p < static_cast<int>(plan.parts.size()); ++p) {
    const PlannedPart& part = plan.parts[p];
    if (!name.starts_with(part.tag + ".")) continue;
    for (Signal& signal : signals_of(plan, p)) {
      if (signal.name == name) return signal;
      const bool oil = signal.what == Signal::What::pressure || signal.what == Signal::What::flow;
      const bool motion = signal.what == Signal::What::position || signal.what == Signal::What::speed;
      if (!oil && !motion) continue;
      const Port& port = part.kind->ports[signal.index + (motion ? part.kind->oil_ports : 0)];
      const std::string what(signal.name.substr(signal.name.rfind('.')));
      if (name == part.tag + "." + std::string(port.name) + what) {
        signal.name = name;
        return signal;
      }
    }
  }
  return std::nullopt;
}

}  // namespace poise
