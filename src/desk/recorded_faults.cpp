// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <algorithm>

#include "desk/recorded.hpp"
#include "study/fault_study.hpp"
#include "study/fault_table.hpp"

namespace poise::desk {
namespace {

constexpr auto all_faults = "faults", pairs_of_faults = "pairs of faults";

std::string run_what_is_left(const study::FaultStudy& faults, study::Record& record, const Studies::At& at) {
  std::string complaint;
  const long id = record.study(faults.heading, complaint);
  if (!complaint.empty()) return complaint;
  const auto all = static_cast<double>(std::max<std::size_t>(1, faults.list.places.size()));
  return study::run_faults(faults, record, id, [&](long done) { return at(static_cast<double>(done) / all); })
      .complaint;
}

/// Those that `poise faults --pairs` has run of the same job.
std::vector<study::PairResult> pairs_recorded(const Kept& kept, const std::vector<study::FaultPlace>& places,
                                              std::span<const study::FaultResult> results) {
  std::string complaint;
  for (const study::Study& each : kept.record.studies(complaint)) {
    if (each.heading.kind != pairs_of_faults || each.heading.fingerprint != kept.study.heading.fingerprint ||
        each.heading.version != kept.study.heading.version)
      continue;
    const auto pairs = study::pairs_of(results);
    return study::results_of(pairs, places, kept.record.rows(each.id, complaint));
  }
  return {};
}

}  // namespace

void FaultLists::put(const std::string& text, List list) {
  const std::lock_guard lock(mutex_);
  text_ = text;
  list_ = std::move(list);
}

FaultLists::List FaultLists::of(const std::string& text, const Job& job) {
  {
    const std::lock_guard lock(mutex_);
    if (list_ && text_ == text) return list_;
  }
  const study::Nominal nominal = study::nominal_of(job);
  auto list = std::make_shared<const study::FaultList>(study::list_faults(job, &nominal.trace));
  put(text, list);
  return list;
}

std::string run_faults(const StudyOf& of, const std::string& version, unsigned threads, const Studies::At& at,
                       FaultLists& lists) {
  const auto job = job_of(of);
  if (const auto* why = std::get_if<std::string>(&job)) return *why;
  const auto prepared = study::prepare_faults(std::get<Job>(job), of.text, version,
                                              {.shard = {}, .cores = threads}, [&] { return at(0.0); });
  if (const auto* why = std::get_if<std::string>(&prepared)) return *why;
  if (!std::holds_alternative<study::FaultStudy>(prepared)) return "";
  const auto& faults = std::get<study::FaultStudy>(prepared);
  lists.put(of.text, std::make_shared<const study::FaultList>(faults.list));
  auto record = study::Record::open(of.record(), study::Access::write);
  if (const auto* why = std::get_if<std::string>(&record)) return *why;
  const std::string complaint = run_what_is_left(faults, std::get<study::Record>(record), at);
  const std::string closing = std::get<study::Record>(record).close();
  return complaint.empty() ? closing : complaint;
}

std::optional<Recorded> read_faults(const StudyOf& of, const std::string& version, FaultLists& lists) {
  const auto kept =
      latest(of, version, [](const study::Heading& heading) { return heading.kind == all_faults; });
  if (!kept) return std::nullopt;
  const FaultLists::List list = lists.of(kept->study.heading.job, kept->job);
  const auto results = study::results_of(list->places, kept->rows);
  const long done = std::ranges::count_if(results, &study::FaultResult::done);
  const auto pairs = pairs_recorded(*kept, list->places, results);
  return Recorded{Json(study::faults_to_json(kept->job, results, pairs, list->not_applicable,
                                             {.wanted = static_cast<long>(results.size()), .done = done})),
                  kept->of_this_text};
}

}  // namespace poise::desk
