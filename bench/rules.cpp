// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What the trade's rules cost, beside the run they look at: the signals that only they need, and the looks
// themselves. Ends with 1 where both together take more than a twentieth of the run.
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <stdexcept>

#include "circuit/circuit.hpp"
#include "job/job.hpp"
#include "judge/verdict.hpp"
#include "rules/people.hpp"
#include "solve/run.hpp"

namespace poise {
namespace {

constexpr int repeats = 31;
constexpr double most = 0.05;

Job job_of(const char* path) {
  auto read = read_job_file(path);
  if (std::holds_alternative<Complaints>(read)) throw std::runtime_error("the job cannot be read");
  return std::get<Job>(std::move(read));
}

double cpu_seconds() {
  timespec now{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

struct Cost {
  double run = 0.0, recorded = 0.0, looks = 0.0;  ///< s
};

/// The least of many rounds of each, taken in turn so that a busy machine treats all alike.
Cost cost_of(const Job& job) {
  const Circuit circuit = build(job.plan);
  const std::vector<Signal> needed = signals_needed(job);
  const std::vector<Signal> glanced_at = signals_of_rules(job);
  Cost least{1e9, 1e9, 1e9};
  for (int i = 0; i < repeats; ++i) {
    const double t0 = cpu_seconds();
    const Trace bare = solve::run(circuit, job.steps, needed, {.controls = job.controls});
    const double t1 = cpu_seconds();
    const Trace trace =
        solve::run(circuit, job.steps, needed, {.glanced_at = glanced_at, .controls = job.controls});
    const double t2 = cpu_seconds();
    const rules::Sight sight(job.plan, job.steps, job.controls, job.world, &trace);
    const auto breaches = rules::breaches(sight);
    const auto people = rules::for_people(sight);
    const double t3 = cpu_seconds();
    if (people.empty() && bare.time.size() != trace.time.size()) throw std::logic_error("the rows differ");
    least = {std::min(least.run, t1 - t0), std::min(least.recorded, t2 - t1), std::min(least.looks, t3 - t2)};
  }
  return least;
}

bool is_cheap(const char* path) {
  const Cost cost = cost_of(job_of(path));
  const double more = cost.recorded - cost.run, share = (more + cost.looks) / cost.run;
  fmt::print(
      "{}: run {:.2f} ms, signals of the rules {:.2f} ms more, {} rules {:.2f} ms: {:.1f} % (at most {:.0f} "
      "%)\n",
      path, 1e3 * cost.run, 1e3 * more, rules::catalogue().size(), 1e3 * cost.looks, 100.0 * share,
      100.0 * most);
  return share <= most;
}

}  // namespace
}  // namespace poise

int main() {
  const bool stand = poise::is_cheap(POISE_SOURCE_DIR "/jobs/drilling-stand.toml");
  const bool lift = poise::is_cheap(POISE_SOURCE_DIR "/jobs/axle-box-lift.toml");
  return stand && lift ? EXIT_SUCCESS : EXIT_FAILURE;
}
