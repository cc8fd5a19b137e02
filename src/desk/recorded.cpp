// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/recorded.hpp"

#include <algorithm>
#include <utility>

#include "job/reading.hpp"
#include "study/fingerprint.hpp"

namespace poise::desk {

Studies recorded_studies(const std::string& version) {
  auto lists = std::make_shared<FaultLists>();
  return {.run = [version, lists](const StudyOf& of, unsigned threads, const Studies::At& at) -> std::string {
            if (of.kind == "faults") return run_faults(of, version, threads, at, *lists);
            return run_spread(of, version, threads, at);
          },
          .read = [version, lists](const StudyOf& of, const units::World& world) -> std::optional<Recorded> {
            if (of.kind == "faults") return read_faults(of, version, *lists);
            return read_spread(of, version, world);
          }};
}

std::variant<Job, std::string> job_of(const StudyOf& of) {
  job::Reading reading = job::read_as_far_as_understood(of.text, of.job, job::ReadTo::run, of.folder);
  if (!reading.complaints.list.empty()) return reading.complaints.list.front().sentence;
  return std::move(reading.job);
}

std::optional<Kept> latest(const StudyOf& of, const std::string& version,
                           const std::function<bool(const study::Heading&)>& wanted) {
  auto opened = study::Record::open(of.record(), study::Access::read);
  if (!std::holds_alternative<study::Record>(opened)) return std::nullopt;
  auto& record = std::get<study::Record>(opened);
  std::string complaint;
  std::vector<study::Study> studies = record.studies(complaint);
  std::erase_if(studies, [&](const study::Study& each) {
    return each.heading.version != version || !wanted(each.heading);
  });
  const auto present = job_of(of);
  const std::string fingerprint = std::holds_alternative<Job>(present)
                                      ? study::fingerprint_of(std::get<Job>(present), of.text)
                                      : std::string();
  const auto is_of_this_text = [&](const study::Study& each) {
    return each.heading.fingerprint == fingerprint;
  };
  std::stable_partition(studies.rbegin(), studies.rend(), is_of_this_text);
  for (auto latest = studies.rbegin(); latest != studies.rend(); ++latest) {
    study::Study& each = *latest;
    std::vector<study::Row> rows = record.rows(each.id, complaint);
    if (rows.empty()) continue;
    const bool this_text = is_of_this_text(each);
    StudyOf then = of;
    then.text = each.heading.job;
    auto job = job_of(then);
    if (!std::holds_alternative<Job>(job) ||
        study::fingerprint_of(std::get<Job>(job), then.text) != each.heading.fingerprint)
      continue;
    return Kept{std::move(record), std::move(each), std::move(rows), std::move(std::get<Job>(job)),
                this_text};
  }
  return std::nullopt;
}

}  // namespace poise::desk
