// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "support/blind_trials.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

#include "diagnose/sheet.hpp"
#include "study/fault_run.hpp"

namespace poise::blind_trials {
namespace {

/// The same on every machine, unlike the distributions of the library.
double between(std::mt19937_64& random, double low, double high) {
  return low + (high - low) * static_cast<double>(random() >> 11) * 0x1p-53;
}

std::string name_of(const diagnose::Atlas& atlas, std::size_t course) {
  return course == diagnose::Suspect::sound ? "nothing wrong" : atlas.courses[course].place.name;
}

bool shows_something(const diagnose::Atlas& atlas, const diagnose::Belief& belief) {
  return std::ranges::any_of(belief.readings(), [&](const diagnose::Reading& reading) {
    const diagnose::Band band = diagnose::band_of(atlas, reading.watch);
    if (reading.value.has_value() == std::isnan(band.middle)) return true;
    return reading.value && std::abs(*reading.value - band.middle) > 1.5 * (band.high - band.middle);
  });
}

}  // namespace

std::vector<Machine> machines_of(const diagnose::AtlasWork& work, long sound_ones, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  std::vector<Machine> machines;
  for (std::size_t course = 0; course < work.suspects.size(); ++course) {
    for (int third = 0; third < 3; ++third) {
      const double t = between(random, third / 3.0, (third + 1) / 3.0);
      machines.push_back(
          {course, work.suspects[course].one_size ? 1.0 : t, static_cast<long>(machines.size()) + 1});
    }
  }
  for (long i = 0; i < sound_ones; ++i)
    machines.push_back({diagnose::Suspect::sound, 0.0, static_cast<long>(machines.size()) + 1});
  return machines;
}

std::vector<double> shows(const diagnose::AtlasWork& work, const Machine& machine, std::uint64_t seed) {
  const study::Spread spread(work.job, seed);
  Job job = spread.machine(machine.number);
  int split = -1;
  if (machine.course != diagnose::Suspect::sound) {
    const study::FaultPlace& place = work.suspects[machine.course];
    if (auto faulty = study::with_fault(job, place, machine.t)) {
      job = *std::move(faulty);
      if (study::splits_a_step(place)) split = place.step;
    }
  }
  return diagnose::run_watched(work, job, split, [] { return true; });
}

diagnose::Readings read_off(const diagnose::AtlasWork& work, const std::vector<std::size_t>& sheet,
                            const std::vector<double>& shows, std::uint64_t seed, std::uint64_t occasion) {
  std::mt19937_64 of_gauges(seed), random(seed + 7919 * (occasion + 1));
  std::map<std::string, double> kept;
  for (const diagnose::Watch& watch : work.watches) {
    if (watch.instrument == diagnose::Instrument::gauge && !kept.contains(watch.at))
      kept[watch.at] = between(of_gauges, -1.0, 1.0);
  }
  diagnose::Readings readings;
  for (const std::size_t w : sheet) {
    const diagnose::Watch& watch = work.watches[w];
    diagnose::Reading reading{.watch = w, .accuracy = watch.accuracy};
    if (!std::isnan(shows[w])) {
      double off = between(random, -1.0, 1.0);
      if (watch.instrument == diagnose::Instrument::gauge) off = 0.8 * kept.at(watch.at) + 0.2 * off;
      reading.value =
          shows[w] + (watch.instrument == diagnose::Instrument::contact ? 0.0 : off * watch.accuracy);
    }
    readings.list.push_back(reading);
  }
  return readings;
}

Result judge(const diagnose::Atlas& atlas, const Machine& machine, const diagnose::Belief& belief) {
  const std::vector<diagnose::Group> groups = belief.groups();
  const diagnose::Suspect& first = groups.front().suspects.front();
  Result result{.job = atlas.job.title,
                .truth = name_of(atlas, machine.course),
                .first = name_of(atlas, first.course),
                .machine = machine,
                .in_group = groups.front().suspects.size(),
                .first_itself = first.course == machine.course,
                .shows = shows_something(atlas, belief),
                .called_sound = first.course == diagnose::Suspect::sound};
  for (std::size_t g = 0; g < groups.size() && result.rank == 0; ++g) {
    for (const diagnose::Suspect& suspect : groups[g].suspects) {
      if (suspect.course == machine.course) result.rank = g + 1;
    }
  }
  return result;
}

bool found(const Result& result) { return result.rank == 1 && !result.called_sound; }

}  // namespace poise::blind_trials
