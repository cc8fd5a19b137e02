// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Does the work grow evenly with the circuit? N jacks, each with a power unit of its own, in ten sizes, lift
// and are let down: time and memory per jack from 10 to 10,000. And a long hose in many pieces whose oil has
// mass.
#include <benchmark/benchmark.h>
#include <fmt/format.h>
#include <sys/resource.h>

#include <ctime>
#include <fstream>
#include <map>
#include <stdexcept>

#include "support/workshop.hpp"

namespace poise {
namespace {

constexpr int sizes = 10;

double cpu_seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

/// Memory in use now, bytes.
double memory() {
  std::ifstream in("/proc/self/statm");
  double total = 0.0, resident = 0.0;
  in >> total >> resident;
  return resident * 4096.0;
}

/// One jack: reservoir, pump, relief, valve to tank, hose, cylinder, mass (invented figures).
void add_jack(workshop::Bench& b, int i) {
  const std::string n = fmt::format("{}-", i);
  const double size = 1.0 + 0.1 * (i % sizes);
  b.part(n + "T", "reservoir", {{"usable_oil", 5 * si::litre}});
  b.part(n + "P", "pump", {{"flow", 2 * si::litre_per_minute * size}, {"rated_pressure", 700 * si::bar}});
  b.part(n + "V", "relief", {{"setting", 250 * si::bar}, {"rated_flow", 6 * si::litre_per_minute}});
  b.part(n + "D", "directional_2_2", {{"rated_flow", 4 * si::litre_per_minute}});
  b.part(n + "H", "hose", {{"bore", 6 * si::mm}, {"length", 2.0}});
  b.part(n + "C", "single_acting_cylinder", {{"bore", 60 * si::mm * size}, {"stroke", 60 * si::mm}});
  b.part(n + "M", "mass", {{"mass", 3000.0 * size}});
}

// Joins by index: joining by name looks each tag up, which would be what the bench measures.
void join_jack(Plan& plan, int first) {
  const auto port = [&](int part, std::string_view name) {
    const auto& ports = plan.parts[first + part].kind->ports;
    for (int k = 0; k < static_cast<int>(ports.size()); ++k) {
      if (ports[k].name == name) return PortOf{first + part, k};
    }
    throw std::logic_error("no such port");
  };
  enum { tank, pump, relief, valve, hose, cylinder, mass };
  const auto join = [&](PortOf a, PortOf b) { plan.joints.push_back({a, b, {}}); };
  join(port(tank, "T"), port(pump, "S"));
  join(port(tank, "T"), port(relief, "T"));
  join(port(tank, "T"), port(valve, "A"));
  join(port(pump, "P"), port(relief, "P"));
  join(port(pump, "P"), port(valve, "P"));
  join(port(pump, "P"), port(hose, "A"));
  join(port(hose, "B"), port(cylinder, "A"));
  join(port(cylinder, "rod"), port(mass, "rod"));
}

int input_of(const Kind& kind, std::string_view name) {
  for (int i = 0; i < static_cast<int>(kind.inputs.size()); ++i) {
    if (kind.parameters[kind.inputs[i]].name == name) return i;
  }
  throw std::logic_error("no such input");
}

workshop::Bench jacks(int count) {
  constexpr int parts_each = 7;
  static const workshop::Bench ten = [] {
    workshop::Bench b;
    for (int i = 0; i < sizes; ++i) add_jack(b, i);
    return b;
  }();
  workshop::Bench b;
  Step lift{.name = "lift", .lasts = 2.0}, lower{.name = "lower", .lasts = 2.0};
  for (int i = 0; i < count; ++i) {
    const int first = static_cast<int>(b.plan.parts.size());
    for (int k = 0; k < parts_each; ++k) b.plan.parts.push_back(ten.plan.parts[(i % sizes) * parts_each + k]);
    join_jack(b.plan, first);
    const int pump = first + 1, valve = first + 3;
    lift.commands.push_back({pump, input_of(*b.plan.parts[pump].kind, "running"), 1.0, 0.3});
    lower.commands.push_back({pump, input_of(*b.plan.parts[pump].kind, "running"), 0.0, 0.3});
    lower.commands.push_back({valve, input_of(*b.plan.parts[valve].kind, "position"), 1.0, 0.05});
  }
  b.steps = {lift, lower};
  return b;
}

void independent_jacks(benchmark::State& state) {
  static std::map<int, std::pair<double, double>> per_jack;
  const int count = static_cast<int>(state.range(0));
  const workshop::Bench b = jacks(count);
  for (auto _ : state) {
    const double memory_before = memory(), begin = cpu_seconds();
    const Circuit circuit = build(b.plan);
    const Trace trace =
        solve::run(circuit, b.steps, {{Signal::What::position, 5, 0, Quantity::length, "0-C.position"}});
    const double seconds = (cpu_seconds() - begin) / count, bytes = (memory() - memory_before) / count;
    if (trace.halt || trace.books.mass_share() > 1e-6 || trace.books.energy_share() > 1e-3)
      throw std::runtime_error("the jacks did not run to their end with closed books");
    per_jack[count] = {seconds, bytes};
    state.counters["steps"] = static_cast<double>(trace.solver_steps);
    state.counters["ms_per_jack"] = 1e3 * seconds;
    state.counters["kB_per_jack"] = bytes / 1e3;
    if (per_jack.contains(100)) state.counters["time_over_100"] = seconds / per_jack[100].first;
  }
}
BENCHMARK(independent_jacks)
    ->Arg(10)
    ->Arg(100)
    ->Arg(1000)
    ->Arg(10000)
    ->Iterations(1)
    ->Unit(benchmark::kMillisecond);

/// 100 m of hose, oil with mass: a valve at its end shuts in 20 ms.
void hose_of_100_metres(benchmark::State& state) {
  workshop::Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 50 * si::litre}});
  b.part("P1", "pump",
         {{"flow", 10 * si::litre_per_minute}, {"rated_pressure", 250 * si::bar}, {"running", 1.0}});
  b.part("V1", "relief", {{"setting", 120 * si::bar}, {"rated_flow", 20 * si::litre_per_minute}});
  b.part("L1", "hose",
         {{"bore", 12 * si::mm},
          {"length", 100.0},
          {"inertia", 1.0},
          {"segments", static_cast<double>(state.range(0))}});
  b.part("D1", "shut_off", {{"rated_flow", 10 * si::litre_per_minute}, {"position", 1.0}});
  b.join({"T1.T", "P1.S", "V1.T", "D1.B"});
  b.join({"P1.P", "V1.P", "L1.A"});
  b.join({"L1.B", "D1.A"});
  b.step("flow", 0.5);
  b.step("shut", 1.0, {{"D1", "position", 0.0, 20 * si::ms}});
  for (auto _ : state) {
    const Trace trace = b.run({"D1.A.pressure"});
    if (trace.halt || trace.books.energy_share() > 1e-3) throw std::runtime_error("the hose did not run");
    state.counters["steps"] = static_cast<double>(trace.solver_steps);
    state.counters["peak_bar"] = workshop::highest(trace, "D1.A.pressure") / si::bar;
  }
}
BENCHMARK(hose_of_100_metres)->Arg(20)->Arg(200)->Iterations(1)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace poise
