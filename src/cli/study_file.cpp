// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "cli/study_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <fstream>

#include "study/record_csv.hpp"
#include "study/sampling.hpp"

namespace poise::cli {
namespace {

std::nullopt_t complain(std::string_view sentence) {
  fmt::print(stderr, "{}\n", sentence);
  return std::nullopt;
}

/// Runs of a study that belong to no shard but this one.
long done_of(const std::vector<long>& done, const study::Shard& shard) {
  return static_cast<long>(std::ranges::count_if(done, [&](long number) { return shard.has(number); }));
}

}  // namespace

void add_study_options(CLI::App& command, StudyWish& wish) {
  command.add_option("job", wish.job, "the job file")->required();
  command.add_option(
      "--file", wish.file,
      "keep the study in this file (SQLite); without it beside the job, with the ending .studies");
  command.add_flag("--resume", wish.resume, "go on with what the file has of this study");
  command.add_flag("--anew", wish.anew, "drop what the file has of this study and begin again");
  command.add_option(
      "--shard", wish.shard,
      "only the K-th of N parts, \"3/8\": for several machines; poise merge puts them together");
  command.add_option("--csv", wish.csv, "write a line for each run to this CSV file");
  command.add_flag("--json", wish.json, "the answer as JSON");
}

std::filesystem::path study_file(const StudyWish& wish) {
  if (!wish.file.empty()) return wish.file;
  return std::filesystem::path(wish.job).replace_extension(".studies");
}

std::optional<study::Shard> shard_or_complain(const StudyWish& wish) {
  const auto shard = study::read_shard(wish.shard);
  if (!shard) complain(fmt::format("--shard {}: expected the K-th of N parts, such as 3/8", wish.shard));
  return shard;
}

std::optional<OpenStudy> open_or_complain(const StudyWish& wish, const study::Heading& heading,
                                          std::string_view items) {
  const std::filesystem::path file = study_file(wish);
  auto opened = study::Record::open(file, study::Access::write);
  if (const auto* why = std::get_if<std::string>(&opened)) return complain(*why);
  auto& record = std::get<study::Record>(opened);
  std::string complaint;
  const auto there = record.find(heading, complaint);
  if (there && wish.anew) complaint = record.forget(*there);
  if (complaint.empty() && there && !wish.anew && !wish.resume) {
    const auto shard = study::read_shard(wish.shard).value_or(study::Shard{});
    const long done = done_of(record.done(*there, complaint), shard);
    const long wanted =
        static_cast<long>(study::left_to_do(heading.first, heading.first + heading.wanted, shard, {}).size());
    if (done > 0 && done < wanted)
      return complain(
          fmt::format("{} has {} of {} {} of this study; go on with --resume, or begin again with --anew",
                      file.string(), study::count(done), study::count(wanted), items));
  }
  const long id = complaint.empty() ? record.study(heading, complaint) : 0;
  if (!complaint.empty()) return complain(complaint);
  return OpenStudy{std::move(record), id};
}

bool write_csv_or_complain(const StudyWish& wish, const OpenStudy& open, const units::World& world) {
  if (wish.csv.empty()) return true;
  std::ofstream out(wish.csv);
  if (!out) {
    complain(fmt::format("{} cannot be written; name a file in a folder that exists and is yours", wish.csv));
    return false;
  }
  const std::string complaint = study::write_csv(out, open.record, open.id, world);
  out.close();
  if (complaint.empty() && out) return true;
  complain(complaint.empty() ? fmt::format("{} could not be written to its end; is the disk full?", wish.csv)
                             : complaint);
  return false;
}

}  // namespace poise::cli
