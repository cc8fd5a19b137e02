// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Setting down the circuits of sixty parts (bar: under 100 ms each), beside reading the same job and building
// its circuit.
#include <benchmark/benchmark.h>

#include "circuit/circuit.hpp"
#include "support/drawn_job.hpp"

namespace {

using namespace poise;

const char* const jobs[] = {"wheel-set-bay", "two-places", "flushing-stand"};

std::filesystem::path job(const benchmark::State& state) {
  return std::filesystem::path(POISE_SOURCE_DIR "/tests/drawings") /
         (std::string(jobs[state.range(0)]) + ".toml");
}

void read_and_build(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(build(drawing::plan_of(job(state))));
  state.SetLabel(jobs[state.range(0)]);
}
BENCHMARK(read_and_build)->DenseRange(0, 2)->Unit(benchmark::kMillisecond);

void arrange(benchmark::State& state) {
  const Plan plan = drawing::plan_of(job(state));
  const std::vector<draw::Words> words = drawing::words_of(plan);
  for (auto _ : state) benchmark::DoNotOptimize(draw::arrange(plan, words, {}));
  state.SetLabel(jobs[state.range(0)]);
}
BENCHMARK(arrange)->DenseRange(0, 2)->Unit(benchmark::kMillisecond);

}  // namespace
