// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The drilling stand with every number of every part changed at random: how many steps does the worst of 200
// take, against the nominal one? A solver that is robust takes at most ten times as many.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <cmath>
#include <random>
#include <stdexcept>

#include "circuit/circuit.hpp"
#include "job/job.hpp"
#include "judge/verdict.hpp"
#include "solve/run.hpp"

namespace poise {
namespace {

constexpr int runs = 200;
constexpr double largest_change = 0.3;

Job stand() {
  auto read = read_job_file(POISE_SOURCE_DIR "/jobs/drilling-stand.toml");
  if (std::holds_alternative<Complaints>(read)) throw std::runtime_error("the drilling stand cannot be read");
  return std::get<Job>(std::move(read));
}

/// Every given number times 1 ± up to 30 %, kept within its range; words stay. Draws again where values do
/// not go together.
void perturb(Plan& plan, std::mt19937& bits) {
  std::uniform_real_distribution<double> factor(1.0 - largest_change, 1.0 + largest_change);
  for (PlannedPart& part : plan.parts) {
    const auto table = part.kind->parameters;
    do {
      std::vector<double> numbers(part.values.all().begin(), part.values.all().end());
      for (std::size_t i = 0; i < table.size(); ++i) {
        if (!table[i].words.empty() || std::isnan(numbers[i])) continue;
        numbers[i] = std::clamp(numbers[i] * factor(bits), table[i].low, table[i].high);
      }
      part.values = Values(table, std::move(numbers));
    } while (!part.kind->check(part.values).empty());
  }
}

Trace run(const Job& job) {
  const Circuit circuit = build(job.plan);
  return solve::run(circuit, job.steps, signals_needed(job));
}

void stand_nominal(benchmark::State& state) {
  const Job job = stand();
  long steps = 0;
  for (auto _ : state) steps = run(job).solver_steps;
  state.counters["steps"] = static_cast<double>(steps);
}
BENCHMARK(stand_nominal)->Unit(benchmark::kMillisecond);

void stand_perturbed(benchmark::State& state) {
  const Job job = stand();
  const double nominal = static_cast<double>(run(job).solver_steps);
  double worst = 0.0;
  int worst_draw = 0, halted = 0, open_books = 0;
  for (auto _ : state) {
    for (int draw = 0; draw < runs; ++draw) {
      std::mt19937 bits(1000u + static_cast<unsigned>(draw));
      Job changed = job;
      perturb(changed.plan, bits);
      const Trace trace = run(changed);
      if (trace.halt) {
        ++halted;
        fmt::print("draw {}: {}\n", draw, trace.halt->sentence);
      }
      open_books +=
          trace.books.mass_share() > Books::mass_closes || trace.books.energy_share() > Books::energy_closes;
      const double ratio = static_cast<double>(trace.solver_steps) / nominal;
      if (ratio > worst) {
        worst = ratio;
        worst_draw = draw;
      }
    }
  }
  state.counters["worst_ratio"] = worst;
  state.counters["worst_draw"] = worst_draw;
  state.counters["halted"] = halted;
  state.counters["open_books"] = open_books;
}
BENCHMARK(stand_perturbed)->Unit(benchmark::kSecond)->Iterations(1);

}  // namespace
}  // namespace poise
