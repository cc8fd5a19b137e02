// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "desk/study.hpp"
#include "job/job.hpp"
#include "study/record.hpp"

namespace poise::desk {

/// Studies as the room `study` runs them, in the record that `poise spread` and `poise faults` use.
Studies recorded_studies(std::string version);

/// The job of a study; why it cannot be read, in a sentence.
std::variant<Job, std::string> job_of(const StudyOf& of);

/// A study of a record with its runs, and the job that it is of.
struct Kept {
  study::Record record;
  study::Study study;
  std::vector<study::Row> rows;
  Job job;  ///< in the units asked for; its text is in the study's heading
  bool of_this_text = true;
};

/// The latest study in the record that is `wanted` and has runs: of this text where there is one, else of an
/// earlier text. None also where the record cannot be read.
std::optional<Kept> latest(const StudyOf& of, const units::World& world,
                           const std::function<bool(const study::Heading&)>& wanted);

std::string run_spread(const StudyOf& of, const std::string& version, unsigned threads,
                       const Studies::At& at);
std::optional<Recorded> read_spread(const StudyOf& of, const units::World& world);

}  // namespace poise::desk
