// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// How long the two examples take with all their settings open, and with sizes and parts from the
// demonstration stock open as well, beside what as many single runs of the example take on one core. Ends
// with 1 where the first takes more than 5 s or the second more than 30 s, both on this machine's cores.
#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <stdexcept>

#include "circuit/circuit.hpp"
#include "search/find.hpp"
#include "solve/run.hpp"

namespace poise {
namespace {

using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point begin) {
  return std::chrono::duration<double>(Clock::now() - begin).count();
}

struct Case {
  std::string name;
  std::string file, like;  ///< with open values; the same job without any
  double at_most;          ///< s
};

double seconds_of_a_run(const std::string& file) {
  const auto read = read_job_file(file);
  const Job& job = std::get<Job>(read);
  constexpr int repeats = 5;
  const auto begin = Clock::now();
  for (int i = 0; i < repeats; ++i) {
    const Trace trace = solve::run(build(job.plan), job.steps, signals_needed(job),
                                   {.glanced_at = signals_of_rules(job), .controls = job.controls});
    if (judge(job, trace).findings.empty()) throw std::logic_error("nothing was judged");
  }
  return seconds_since(begin) / repeats;
}

bool in_time(const Case& what) {
  std::string text;
  const auto read = read_job_file_to_find(what.file, &text);
  if (const auto* complaints = std::get_if<Complaints>(&read))
    throw std::runtime_error(complaints->text(text));
  const Job& job = std::get<Job>(read);
  const double run = seconds_of_a_run(what.like);
  const auto begin = Clock::now();
  const search::Found found = search::find(text, job, {});
  const double took = seconds_since(begin);
  fmt::print(
      "{:<32} {:2} values, {} {:4} runs in {:5.1f} s (at most {:.0f} s); as many single runs {:5.1f} s\n",
      what.name, job.sought.size(), found.holds() ? "found in" : "NOT FOUND in", found.runs, took,
      what.at_most, run * static_cast<double>(found.runs));
  return took <= what.at_most && found.holds();
}

int all() {
  const std::string jobs = std::string(POISE_SOURCE_DIR) + "/jobs/";
  const std::string stand = jobs + "drilling-stand.toml", lift = jobs + "axle-box-lift.toml";
  const std::vector<Case> cases{
      {"drilling stand, settings", jobs + "to-find/drilling-stand.toml", stand, 5.0},
      {"axle-box lift, sizes and stock", jobs + "to-find/axle-box-lift.toml", lift, 30.0},
  };
  bool good = true;
  for (const Case& each : cases) good = in_time(each) && good;
  return good ? EXIT_SUCCESS : EXIT_FAILURE;
}

}  // namespace
}  // namespace poise

int main() { return poise::all(); }
