// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Blind trials of the stand, the lift and the press: every fault at three sizes and sound machines, values
// off within their tolerances, instruments off. Printed: how often the fault, or a group that has it, comes
// first or among the first three; how often a sound machine is called sound; the same with readings of
// commissioning; who is taken for whom; and how long one diagnosis takes from nothing, with nothing kept
// (bar: 20 s on two cores).
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <chrono>
#include <map>
#include <stdexcept>

#include "diagnose/diagnosis.hpp"
#include "diagnose/sheet.hpp"
#include "search/cores.hpp"
#include "support/blind_trials.hpp"

namespace poise::diagnose {
namespace {

using Clock = std::chrono::steady_clock;
constexpr std::uint64_t of_machines = 99;
constexpr long sound_ones = 150;

double seconds_since(Clock::time_point begin) {
  return std::chrono::duration<double>(Clock::now() - begin).count();
}

AtlasWork work_of(const std::string& name) {
  auto read = read_job_file(POISE_SOURCE_DIR "/jobs/" + name + ".toml");
  if (!std::holds_alternative<Job>(read)) throw std::runtime_error(name + " cannot be read");
  return std::get<AtlasWork>(prepare_atlas(std::get<Job>(read), [] { return true; }));
}

/// Shares of a set of trials.
struct Tally {
  long trials = 0, first = 0, three = 0, itself = 0, seen = 0, seen_first = 0, sound = 0, called_sound = 0,
       showing = 0, found = 0;
  long in_groups = 0;

  void count(const blind_trials::Result& result) {
    if (result.machine.course == Suspect::sound) {
      ++sound;
      called_sound += result.called_sound;
      return;
    }
    ++trials;
    first += result.rank == 1;
    three += result.rank <= 3;
    showing += result.shows;
    found += result.shows && blind_trials::found(result);
    if (result.called_sound) return;
    ++seen;
    seen_first += result.rank == 1;
    itself += result.first_itself;
    in_groups += static_cast<long>(result.in_group);
  }

  std::string words() const {
    const auto percent = [](long a, long b) {
      return b == 0 ? 0.0 : 100.0 * static_cast<double>(a) / static_cast<double>(b);
    };
    return fmt::format(
        "{} faults: its group first {:.1f} %, in the first three {:.1f} %; sound called sound {:.1f} % of "
        "{}\n"
        "    {} show clearly on the sheet: found in the first group, and not called sound, {:.1f} %\n"
        "    something is seen to be wrong in {} of them: its group first {:.1f} %, itself first {:.1f} %, "
        "{:.1f} in the "
        "first group",
        trials, percent(first, trials), percent(three, trials), percent(called_sound, sound), sound, showing,
        percent(found, showing), seen, percent(seen_first, seen), percent(itself, seen),
        seen == 0 ? 0.0 : static_cast<double>(in_groups) / static_cast<double>(seen));
  }
};

/// Who was taken for whom where the truth was not in the first group: "truth → first", how often.
using Confusion = std::map<std::string, long>;

void try_job(const std::string& name, Tally& all, Tally& all_with_baseline, Confusion& confusion) {
  const auto begin = Clock::now();
  const AtlasWork work = work_of(name);
  const auto atlas = run_atlas(work, [](double) { return true; });
  const auto sheet = usual_sheet(work.watches, work.sound);
  const Machine unknown = unknown_machine(*atlas);
  const auto machines = blind_trials::machines_of(work, sound_ones, 77);
  diagnose::diagnose(*atlas, unknown, blind_trials::read_off(work, sheet, work.sound, 1), work.job.world);
  fmt::print("{}: {} readings, {} suspects; one diagnosis from nothing {:.1f} s\n", work.job.title,
             sheet.size(), work.suspects.size(), seconds_since(begin));
  std::vector<blind_trials::Result> alone(machines.size()), with_baseline(machines.size());
  search::on_all_cores(
      machines.size(),
      [&](std::size_t i) {
        const blind_trials::Machine& machine = machines[i];
        const auto seed = 1000 + static_cast<std::uint64_t>(machine.number);
        const auto readings =
            blind_trials::read_off(work, sheet, blind_trials::shows(work, machine, of_machines), seed);
        alone[i] = blind_trials::judge(*atlas, machine, Belief(*atlas, unknown, readings));
        const auto sound = blind_trials::shows(work, {.number = machine.number}, of_machines);
        const auto baseline = blind_trials::read_off(work, sheet, sound, seed, seed + 100'000);
        with_baseline[i] =
            blind_trials::judge(*atlas, machine, Belief(*atlas, machine_of(*atlas, baseline.list), readings));
      },
      [] {});
  Tally own, own_with_baseline;
  for (std::size_t i = 0; i < machines.size(); ++i) {
    for (Tally* tally : {&own, &all}) tally->count(alone[i]);
    for (Tally* tally : {&own_with_baseline, &all_with_baseline}) tally->count(with_baseline[i]);
    const blind_trials::Result& result = alone[i];
    const bool sound = result.machine.course == Suspect::sound;
    if (sound ? !result.called_sound : result.rank != 1)
      ++confusion[fmt::format("{}: {} → {}", name, result.truth, result.first)];
  }
  fmt::print("  {}\n  with readings of commissioning: {}\n", own.words(), own_with_baseline.words());
}

void blind_trials_of_all(benchmark::State& state) {
  for (auto _ : state) {
    Tally all, with_baseline;
    Confusion confusion;
    for (const char* name : {"drilling-stand", "axle-box-lift", "bush-press"})
      try_job(name, all, with_baseline, confusion);
    fmt::print("all: {}\n  with readings of commissioning: {}\n\ntaken for another (truth → first)\n",
               all.words(), with_baseline.words());
    for (const auto& [pair, times] : confusion) fmt::print("  {} ×{}\n", pair, times);
  }
}
BENCHMARK(blind_trials_of_all)->Iterations(1)->Unit(benchmark::kSecond);

}  // namespace
}  // namespace poise::diagnose
