// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <CLI/CLI.hpp>
#include <filesystem>
#include <optional>
#include <string>

#include "study/record.hpp"
#include "study/shard.hpp"

namespace poise::cli {

/// What `poise spread` and `poise faults` are both asked.
struct StudyWish {
  std::string job, file, csv, shard = "1/1";
  bool resume = false, anew = false, json = false;
};

void add_study_options(CLI::App& command, StudyWish& wish);

/// The record's file: as wished, else beside the job.
std::filesystem::path study_file(const StudyWish& wish);

/// The shard that is asked for; none after a complaint.
std::optional<study::Shard> shard_or_complain(const StudyWish& wish);

/// A record with the study of a heading ready for its runs.
struct OpenStudy {
  study::Record record;
  long id = 0;
};

/// Opens it. None after a complaint: also where runs of an unfinished study are there and neither --resume
/// nor --anew says what to do with them. `counted` is the heading whose runs say how far it is, `items` what
/// they are called: "machines".
std::optional<OpenStudy> open_or_complain(const StudyWish& wish, const study::Heading& heading,
                                          const study::Heading& counted, std::string_view items);

/// Whether the answer was asked for although a part of a study has none; complains then.
bool asks_a_part_for_an_answer(const StudyWish& wish, const study::Shard& shard);

/// Writes the runs as CSV where that is wished; false after a complaint.
bool write_csv_or_complain(const StudyWish& wish, const OpenStudy& open, const units::World& world);

}  // namespace poise::cli
