// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A spread of the drilling stand, recorded, on all cores, against the same machines one after the other on
// one core: how much of cores × the single speed is left (bar: 0.9)? What the machine itself loses when all
// its cores are busy is measured beside it, by as many processes as cores that share nothing.
#include <benchmark/benchmark.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <stdexcept>

#include "study/spread_run.hpp"

namespace poise::study {
namespace {

constexpr long machines = 240;

using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point begin) {
  return std::chrono::duration<double>(Clock::now() - begin).count();
}

SpreadStudy stand() {
  std::string text;
  auto read = read_job_file(POISE_SOURCE_DIR "/jobs/drilling-stand.toml", &text);
  if (std::holds_alternative<Complaints>(read)) throw std::runtime_error("the drilling stand cannot be read");
  auto study =
      prepare(std::get<Job>(std::move(read)), text, "bench", {.machines = machines}, [] { return true; });
  return std::get<SpreadStudy>(std::move(study));
}

void run_every(const SpreadStudy& study, long first, long step) {
  for (long number = first; number <= machines; number += step)
    benchmark::DoNotOptimize(run_machine(study.spread.machine(number), {.most_steps = study.most_steps}));
}

/// Machines a second, one after the other.
double one_by_one(const SpreadStudy& study) {
  const auto begin = Clock::now();
  run_every(study, 1, 1);
  return machines / seconds_since(begin);
}

/// By as many processes as cores, which share nothing.
double apart(const SpreadStudy& study) {
  const auto cores = static_cast<long>(search::cores_allowed());
  const auto begin = Clock::now();
  for (long core = 0; core < cores; ++core) {
    if (fork() == 0) {
      run_every(study, 1 + core, cores);
      _exit(0);
    }
  }
  while (wait(nullptr) > 0) {
  }
  return machines / seconds_since(begin);
}

double as_a_study(const SpreadStudy& study) {
  const auto file =
      std::filesystem::temp_directory_path() / ("bench-" + std::to_string(getpid()) + ".studies");
  auto opened = Record::open(file, Access::write);
  auto& record = std::get<Record>(opened);
  std::string complaint;
  const long id = record.study(study.heading, complaint);
  const auto begin = Clock::now();
  const Came came = run_spread(study, record, id, [](long) { return true; });
  const double rate = machines / seconds_since(begin);
  if (came.items != machines || !complaint.empty())
    throw std::runtime_error("the study did not come to its end");
  record.close();
  std::filesystem::remove(file);
  return rate;
}

void spread_of_the_stand(benchmark::State& state) {
  const SpreadStudy study = stand();
  const auto cores = static_cast<double>(search::cores_allowed());
  for (auto _ : state) {
    const double single = one_by_one(study), processes = apart(study), all = as_a_study(study);
    state.SetIterationTime(machines / all);
    state.counters["machines_per_s"] = all;
    state.counters["single_per_s"] = single;
    state.counters["of_single_x_cores"] = all / (single * cores);
    state.counters["processes_of_single_x_cores"] = processes / (single * cores);
    state.counters["of_processes"] = all / processes;
  }
}
BENCHMARK(spread_of_the_stand)->UseManualTime()->Iterations(1)->Repetitions(3)->Unit(benchmark::kSecond);

}  // namespace
}  // namespace poise::study
