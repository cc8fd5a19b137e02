// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/studied.hpp"

#include <nlohmann/json.hpp>

#include "study/fingerprint.hpp"
#include "study/record.hpp"
#include "study/spread_json.hpp"
#include "study/spread_run.hpp"

namespace poise::study {
namespace {

struct Found {
  const Record& record;
  const Job& job;
  std::vector<Study> studies;  ///< of this job and version
  std::string& complaint;

  const Study* latest(std::string_view kind) const {
    const Study* found = nullptr;
    for (const Study& study : studies) {
      if (study.heading.kind == kind) found = &study;
    }
    return found;
  }
  bool complete(const Study& study) const {
    return static_cast<long>(record.done(study.id, complaint).size()) >= study.heading.wanted;
  }
};

std::uint64_t seed_of(const Heading& heading) {
  return nlohmann::json::parse(heading.options, nullptr, false).value("seed", std::uint64_t{1});
}

std::vector<std::optional<Nearest>> nearest_of(const Found& found, const Heading& spread, std::size_t loose) {
  for (const Study& study : found.studies) {
    const auto options = nlohmann::json::parse(study.heading.options, nullptr, false);
    if (!study.heading.kind.starts_with("nearest") || options.value("machines", 0L) != spread.wanted - 1 ||
        seed_of(study.heading) != seed_of(spread))
      continue;
    std::vector<std::optional<Nearest>> all(spread.promises.size());
    for (const Row& row : found.record.rows(study.id, found.complaint)) {
      auto one = study::nearest_of(nlohmann::json::parse(row.detail, nullptr, false));
      if (one && one->off.size() == loose && row.number < static_cast<long>(all.size()))
        all[static_cast<std::size_t>(row.number)] = std::move(one);
    }
    return all;
  }
  return {};
}

std::optional<SpreadStudied> spread_of(const Found& found) {
  const Study* most = nullptr;
  for (const Study& study : found.studies) {
    if (study.heading.kind == "spread" && found.complete(study) &&
        study.heading.options ==
            spread_options(Spread(found.job, seed_of(study.heading)), seed_of(study.heading)) &&
        (!most || study.heading.wanted > most->heading.wanted))
      most = &study;
  }
  if (!most) return std::nullopt;
  SpreadStudied studied{Spread(found.job, seed_of(most->heading)), {}, {}};
  studied.nearest = nearest_of(found, most->heading, studied.spread.loose().size());
  const std::vector<Row> rows = found.record.rows(most->id, found.complaint);
  studied.answer = answer_of(studied.spread, most->heading.promises, rows, most->heading.wanted - 1);
  return studied;
}

std::optional<std::vector<FaultLine>> faults_of(const Found& found, const Trace& nominal) {
  const Study* faults = found.latest("faults");
  if (!faults) return std::nullopt;
  const std::vector<FaultPlace> places = study::faults_of(found.job, &nominal);
  const std::vector<FaultResult> results = results_of(places, found.record.rows(faults->id, found.complaint));
  if (!std::ranges::all_of(results, &FaultResult::done)) return std::nullopt;
  std::vector<PairResult> pairs;
  if (const Study* two = found.latest("pairs of faults"); two && found.complete(*two))
    pairs = results_of(pairs_of(results), places, found.record.rows(two->id, found.complaint));
  return fault_lines(found.job, results, pairs);
}

}  // namespace

Studied studied(const std::filesystem::path& file, const Job& job, const std::string& text,
                const std::string& version, const Trace& nominal, std::string& complaint) {
  std::error_code error;
  if (!std::filesystem::exists(file, error)) return {};
  auto opened = Record::open(file, Access::read);
  if (const auto* why = std::get_if<std::string>(&opened)) {
    complaint = *why;
    return {};
  }
  const auto& record = std::get<Record>(opened);
  const std::string fingerprint = fingerprint_of(job, text);
  std::vector<Study> studies = record.studies(complaint);
  std::erase_if(studies, [&](const Study& study) {
    return study.heading.fingerprint != fingerprint || study.heading.version != version;
  });
  const Found found{record, job, std::move(studies), complaint};
  return {spread_of(found), faults_of(found, nominal)};
}

}  // namespace poise::study
