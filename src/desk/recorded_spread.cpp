// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <algorithm>

#include "desk/recorded.hpp"
#include "judge/wording.hpp"
#include "study/spread_json.hpp"
#include "study/spread_run.hpp"

namespace poise::desk {
namespace {

constexpr std::uint64_t seed =
    1;  // what the command takes where none is said: either goes on with the other's
/// Machines that looking for the nearest one takes about as long as, for each promise.
constexpr double search = 30.0;

bool is_ours(const study::Heading& heading) {
  if (heading.kind != "spread") return false;
  const auto options = nlohmann::json::parse(heading.options, nullptr, false);
  return options.is_object() && options.value("seed", seed + 1) == seed;
}

/// Row 0 is the job as stated.
long machines_in(const std::vector<long>& numbers, long wanted) {
  return std::ranges::count_if(numbers, [&](long number) { return number > 0 && number <= wanted; });
}

std::string run_machines(const study::SpreadStudy& spread, study::Record& record, const Studies::At& at) {
  std::string complaint;
  const long id = record.study(spread.heading, complaint);
  if (!complaint.empty()) return complaint;
  const long there = machines_in(record.done(id, complaint), spread.wish.machines);
  const auto machines = static_cast<double>(spread.wish.machines);
  const double all = machines + search * static_cast<double>(spread.heading.promises.size());
  study::Came came = study::run_spread(
      spread, record, id, [&](long done) { return at(static_cast<double>(there + done) / all); });
  if (came.stopped || !came.complaint.empty()) return came.complaint;
  const auto rows = record.rows(id, complaint);
  if (!complaint.empty()) return complaint;
  const auto answer = study::answer_of(spread.spread, spread.heading.promises, rows, spread.wish.machines);
  const long nearest = record.study(study::heading_of_nearest(spread), complaint);
  if (!complaint.empty()) return complaint;
  came = study::run_nearest(spread, answer, record, nearest, [&](long done) {
    return at((machines + search * static_cast<double>(done)) / all);
  });
  return came.complaint;
}

/// What is promised, in the units asked for.
std::vector<study::Promise> promises_in(const study::Heading& heading, const Job& job) {
  std::vector<study::Promise> promises = heading.promises;
  for (std::size_t i = 0; i < std::min(promises.size(), job.requirements.size()); ++i)
    promises[i].promised = wording::of(job.requirements[i], job.world);
  return promises;
}

/// The nearest machines that were looked for last, after however many machines that was.
std::vector<std::optional<study::Nearest>> nearest_of(study::SpreadStudy spread,
                                                      const study::Record& record) {
  std::string complaint;
  std::vector<std::optional<study::Nearest>> nearest;
  for (const study::Study& each : record.studies(complaint)) {
    const auto options = nlohmann::json::parse(each.heading.options, nullptr, false);
    if (!options.is_object() || !options.contains("machines")) continue;
    spread.wish.machines = options["machines"].get<long>();
    if (!study::same_study(each.heading, study::heading_of_nearest(spread))) continue;
    if (auto found = study::nearest_recorded(spread, record, complaint); !found.empty())
      nearest = std::move(found);
  }
  return nearest;
}

}  // namespace

std::string run_spread(const StudyOf& of, const std::string& version, unsigned threads,
                       const Studies::At& at) {
  auto job = job_of(of);
  if (auto* why = std::get_if<std::string>(&job)) return *why;
  const study::SpreadWish wish{.machines = of.wanted, .seed = seed, .shard = {}, .cores = threads};
  auto prepared = study::prepare(std::get<Job>(job), of.text, version, wish, [&] { return at(0.0); });
  if (auto* why = std::get_if<std::string>(&prepared)) return *why;
  if (!std::holds_alternative<study::SpreadStudy>(prepared)) return "";
  auto record = study::Record::open(of.record(), study::Access::write);
  if (auto* why = std::get_if<std::string>(&record)) return *why;
  std::string complaint =
      run_machines(std::get<study::SpreadStudy>(prepared), std::get<study::Record>(record), at);
  const std::string closing = std::get<study::Record>(record).close();
  return complaint.empty() ? closing : complaint;
}

std::optional<Recorded> read_spread(const StudyOf& of, const std::string& version,
                                    const units::World& world) {
  auto kept = latest(of, version, is_ours);
  if (!kept || kept->rows.front().number != 0) return std::nullopt;
  kept->job.world = world;
  const study::Heading& heading = kept->study.heading;
  const std::vector<study::Promise> promises = promises_in(heading, kept->job);
  const long wanted = heading.wanted - 1;
  const study::SpreadStudy spread{.wish = {.machines = wanted, .seed = seed},
                                  .spread = study::Spread(std::move(kept->job), seed),
                                  .heading = heading,
                                  .nominal = kept->rows.front()};
  if (heading.options != study::spread_options(spread.spread, seed)) return std::nullopt;  // other machines
  const auto answer = study::answer_of(spread.spread, promises, kept->rows, wanted);
  return Recorded{Json(study::to_json(answer, nearest_of(spread, kept->record), spread.spread)),
                  kept->of_this_text};
}

}  // namespace poise::desk
