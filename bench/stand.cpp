// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The drilling stand proven by the library against a CVODES model of the same circuit written by hand: first
// that they are the same machine, then how much more time the library takes (bar: at most twice).
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <stdexcept>
#include <vector>

#include "by_hand/run.hpp"
#include "circuit/circuit.hpp"
#include "job/job.hpp"
#include "judge/verdict.hpp"
#include "solve/run.hpp"

namespace poise {
namespace {

constexpr int repeats = 21;

Job stand() {
  auto read = read_job_file(POISE_SOURCE_DIR "/jobs/drilling-stand.toml");
  if (std::holds_alternative<Complaints>(read)) throw std::runtime_error("the drilling stand cannot be read");
  return std::get<Job>(std::move(read));
}

Verdict prove(const Job& job) {
  const Circuit circuit = build(job.plan);
  return judge(job,
               solve::run(circuit, job.steps, signals_needed(job), {.glanced_at = signals_of_rules(job)}));
}

/// Moments and peaks by which two models of this machine are known to be the same.
struct Mark {
  std::string_view name;
  bool moment;                ///< s, else Pa or N
  std::string_view found_as;  ///< sentence of the library's event, or its signal
  double (*by_hand)(const by_hand::Outcome&);
  double command = 0.0;  ///< of a moment: the last command before it, s
};
const Mark marks[] = {
    {"S1 is met", true, "S1 is met", [](const by_hand::Outcome& o) { return o.s1_met; }, 0.5},
    {"K1 touches the workpiece", true, "K1 touches the workpiece",
     [](const by_hand::Outcome& o) { return o.k1_touches; }, 0.5},
    {"R1 is fully in", true, "R1 is fully in", [](const by_hand::Outcome& o) { return o.r1_in; }, 7.0},
    {"peak at the pump", false, "P1.P.pressure",
     [](const by_hand::Outcome& o) { return o.highest[by_hand::pump]; }},
    {"peak at R1.A", false, "R1.A.pressure",
     [](const by_hand::Outcome& o) { return o.highest[by_hand::rams_a]; }},
    {"peak at R1.B", false, "R1.B.pressure",
     [](const by_hand::Outcome& o) { return o.highest[by_hand::rams_b]; }},
    {"peak at K1.A", false, "K1.A.pressure",
     [](const by_hand::Outcome& o) { return o.highest[by_hand::clamps]; }},
    {"peak at V4.A", false, "V4.A.pressure",
     [](const by_hand::Outcome& o) { return o.highest[by_hand::reduced]; }},
    {"peak at K4.A", false, "K4.A.pressure",
     [](const by_hand::Outcome& o) { return o.highest[by_hand::k4_line]; }},
    {"peak of K4's press", false, "K4.clamp_force",
     [](const by_hand::Outcome& o) { return o.clamp_peak[by_hand::k4]; }},
};

double found(const Trace& trace, const Mark& mark) {
  if (!mark.moment)
    return std::ranges::max(trace.values[static_cast<std::size_t>(trace.column(mark.found_as))]);
  const auto event = std::ranges::find(trace.events, mark.found_as, &Event::sentence);
  return event == trace.events.end() ? std::nan("") : event->time;
}

/// Moments within 1 ms + 0.2 % of the time since the last command, peaks within 0.5 % (physics contract
/// §7.2).
bool agree(const Mark& mark, double value, double truth) {
  const double allowed = mark.moment ? 1e-3 + 2e-3 * (truth - mark.command) : 5e-3 * truth;
  return std::abs(value - truth) <= allowed;
}

/// Library and hand model, as they are timed, each against the hand model a hundred times tighter.
bool same_machine() {
  const Job job = stand();
  std::vector<Signal> signals = signals_needed(job);
  for (const Mark& mark : marks) {
    if (!mark.moment) signals.push_back(find_signal(job.plan, mark.found_as).value());
  }
  const Trace library = solve::run(build(job.plan), job.steps, signals);
  const by_hand::Outcome hand = by_hand::run({}), truth = by_hand::run({.tighter = 100.0});
  if (library.halt || !hand.finished || !truth.finished) {
    fmt::print(stderr, "a run did not come to its end\n");
    return false;
  }
  bool same = true;
  fmt::print("{:<26}{:>12}{:>12}{:>20}\n", "", "library", "by hand", "by hand, 100x finer");
  for (const Mark& mark : marks) {
    const double ours = found(library, mark), theirs = mark.by_hand(hand), fine = mark.by_hand(truth);
    const bool good = agree(mark, ours, fine) && agree(mark, theirs, fine);
    fmt::print("{:<26}{:>12.6g}{:>12.6g}{:>20.6g}{}\n", mark.name, ours, theirs, fine,
               good ? "" : "   DISAGREE");
    same = same && good;
  }
  fmt::print("steps {} and {}\n", library.solver_steps, hand.steps);
  return same;
}

template <class F>
double cpu_seconds(F&& work) {
  const std::clock_t begin = std::clock();
  work();
  return static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
}
double median(std::vector<double> v) {
  std::ranges::nth_element(v, v.begin() + static_cast<long>(v.size() / 2));
  return v[v.size() / 2];
}

void read_only(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(stand());
}
BENCHMARK(read_only)->Unit(benchmark::kMillisecond);

void build_run_judge(benchmark::State& state) {
  const Job job = stand();
  for (auto _ : state) benchmark::DoNotOptimize(prove(job));
}
BENCHMARK(build_run_judge)->Unit(benchmark::kMillisecond);

void written_by_hand(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(by_hand::run({}));
}
BENCHMARK(written_by_hand)->Unit(benchmark::kMillisecond);

/// Medians of interleaved runs, so that both see the same machine. `ratio` counts build, run and judge.
void library_over_hand(benchmark::State& state) {
  const Job job = stand();
  std::vector<double> ours, theirs;
  for (auto _ : state) {
    for (int i = 0; i < repeats; ++i) {
      ours.push_back(cpu_seconds([&] { benchmark::DoNotOptimize(prove(job)); }));
      theirs.push_back(cpu_seconds([&] { benchmark::DoNotOptimize(by_hand::run({})); }));
    }
  }
  state.counters["ratio"] = median(ours) / median(theirs);
  state.counters["library_ms"] = 1e3 * median(ours);
  state.counters["by_hand_ms"] = 1e3 * median(theirs);
}
BENCHMARK(library_over_hand)->Unit(benchmark::kSecond)->Iterations(1);

}  // namespace
}  // namespace poise

int main(int argc, char** argv) try {
  if (!poise::same_machine()) {
    fmt::print(stderr, "the two models are not the same machine: nothing is timed\n");
    return 1;
  }
  benchmark::Initialize(&argc, argv);
  benchmark::RunSpecifiedBenchmarks();
  return 0;
} catch (const std::exception& e) {
  std::fputs(e.what(), stderr);
  return 1;
}
