// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "desk/study.hpp"
#include "job/job.hpp"
#include "study/fault_place.hpp"
#include "study/record.hpp"

namespace poise::desk {

/// Studies as the room `study` runs them, in the record that `poise spread` and `poise faults` use.
Studies recorded_studies(const std::string& version);

/// The job of a study; why it cannot be read, in a sentence.
std::variant<Job, std::string> job_of(const StudyOf& of);

/// A study of a record with its runs, and the job that it is of.
struct Kept {
  study::Record record;
  study::Study study;
  std::vector<study::Row> rows;
  Job job;  ///< its text is in the study's heading
  bool of_this_text = true;
};

/// The latest study in the record that is `wanted`, by this version of Poise, and has runs: of this text
/// where there is one, else of an earlier text whose lists still say what they said then. None also where the
/// record cannot be read.
std::optional<Kept> latest(const StudyOf& of, const std::string& version,
                           const std::function<bool(const study::Heading&)>& wanted);

std::string run_spread(const StudyOf& of, const std::string& version, unsigned threads,
                       const Studies::At& at);
std::optional<Recorded> read_spread(const StudyOf& of, const std::string& version, const units::World& world);

/// The faults that a job can have hang on a run of it: the list of the text that was asked for last is kept.
/// Safe from several threads.
class FaultLists {
 public:
  using List = std::shared_ptr<const study::FaultList>;
  void put(const std::string& text, List list);
  /// Runs the job where its list is not at hand.
  List of(const std::string& text, const Job& job);

 private:
  std::mutex mutex_;
  std::string text_;
  List list_;
};

std::string run_faults(const StudyOf& of, const std::string& version, unsigned threads, const Studies::At& at,
                       FaultLists& lists);
/// In the job's own units: what came of a fault is recorded in words.
std::optional<Recorded> read_faults(const StudyOf& of, const std::string& version, FaultLists& lists);

}  // namespace poise::desk
