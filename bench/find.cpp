// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// How long the two examples take with all their settings open, and with sizes and parts from the
// demonstration stock open as well, beside what as many single runs of the example take on one core. Ends
// with 1 where the first takes more than 5 s or the second more than 30 s, both on this machine's cores.
#include <fmt/format.h>

#include <array>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <iterator>
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
  std::string name, file;
  std::vector<job::Way> open;         ///< values that become "find"
  std::vector<std::string> models{};  ///< parts whose model becomes "find"
  double at_most;                     ///< s
};

std::string text_of(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// What of a part its model states: taken out of the job where the model is open.
constexpr std::array stated{"rated_flow",    "rated_pressure",        "flow", "setting_flow",
                            "pressure_drop", "volumetric_efficiency", "ratio"};

Job opened(const Case& what, std::string& text) {
  text = text_of(what.file);
  std::vector<job::Edit> edits;
  for (const job::Way& way : what.open) edits.push_back({.at = way, .value = {"find"}});
  if (!what.models.empty())
    edits.push_back({.at = {std::string("stock")}, .value = {std::string(POISE_SOURCE_DIR) + "/stock"}});
  for (const std::string& tag : what.models) {
    edits.push_back({.at = {std::string("parts"), tag, std::string("model")}, .value = {"find"}});
    for (const char* key : stated) {
      const job::Way way{std::string("parts"), tag, std::string(key)};
      auto without = job::edited(text, std::vector{job::Edit{.does = job::Edit::Does::remove, .at = way}});
      if (without.complaint.empty()) text = std::move(without.text);
    }
  }
  text = job::edited(text, edits).text;
  auto read = read_job_to_find(text, what.file);
  if (auto* complaints = std::get_if<Complaints>(&read)) throw std::runtime_error(complaints->text(text));
  return std::get<Job>(std::move(read));
}

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

job::Way way(const char* tag, const char* key) {
  return {std::string("parts"), std::string(tag), std::string(key)};
}

bool in_time(const Case& what) {
  std::string text;
  const Job job = opened(what, text);
  const double run = seconds_of_a_run(what.file);
  const auto begin = Clock::now();
  const search::Found found = search::find(text, job, {});
  const double took = seconds_since(begin);
  fmt::print(
      "{:<40} {} values, {} {:4} runs in {:5.1f} s (at most {:.0f} s); as many single runs {:5.1f} s\n",
      what.name, job.sought.size(), found.holds() ? "found in" : "NOT FOUND in", found.runs, took,
      what.at_most, run * static_cast<double>(found.runs));
  return took <= what.at_most && found.holds();
}

int all() {
  const std::string jobs = std::string(POISE_SOURCE_DIR) + "/jobs/";
  const std::string stand = jobs + "drilling-stand.toml", lift = jobs + "axle-box-lift.toml";
  const std::vector<job::Way> of_stand{way("V3", "setting"), way("V2", "setting"), way("V4", "setting"),
                                       way("V6", "turns")};
  const std::vector<job::Way> of_lift{way("V2", "setting"), way("V5", "turns"), way("V6", "turns")};
  std::vector<job::Way> sizes_of_stand = of_stand, sizes_of_lift = of_lift;
  for (const char* tag : {"R1", "R2"}) sizes_of_stand.push_back(way(tag, "bore"));
  for (const char* tag : {"C1", "C2"}) sizes_of_lift.push_back(way(tag, "bore"));
  const std::vector<Case> cases{
      {"drilling stand, settings", stand, of_stand, {}, 5.0},
      {"axle-box lift, settings", lift, of_lift, {}, 5.0},
      {"drilling stand, settings, bores, stock", stand, sizes_of_stand, {"P1", "V2", "V3", "V4"}, 30.0},
      {"axle-box lift, settings, bores, stock", lift, sizes_of_lift, {"P1", "V2", "V3", "V4"}, 30.0},
  };
  bool good = true;
  for (const Case& each : cases) good = in_time(each) && good;
  return good ? EXIT_SUCCESS : EXIT_FAILURE;
}

}  // namespace
}  // namespace poise

int main() { return poise::all(); }
