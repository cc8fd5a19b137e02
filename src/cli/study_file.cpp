// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "cli/study_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/command.hpp"
#include "cli/to_file.hpp"
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

/// A spread with its nearest machines, or faults with their pairs.
bool of_one_family(std::string_view a, std::string_view b) {
  const auto of_faults = [](std::string_view kind) { return kind.find("faults") != std::string_view::npos; };
  return of_faults(a) == of_faults(b);
}

std::uint64_t seed_of(const study::Heading& heading) {
  const auto options = nlohmann::json::parse(heading.options, nullptr, false);
  return options.is_object() ? options.value("seed", std::uint64_t{0}) : 0;
}

/// Drops all that belongs to a study of this job; empty or the complaint.
std::string forget_all(study::Record& record, const study::Heading& heading) {
  std::string complaint;
  for (const study::Study& each : record.studies(complaint)) {
    const study::Heading& other = each.heading;
    if (complaint.empty() && other.fingerprint == heading.fingerprint && other.version == heading.version &&
        of_one_family(other.kind, heading.kind) && seed_of(other) == seed_of(heading))
      complaint = record.forget(each.id);
  }
  return complaint;
}

}  // namespace

void add_study_options(CLI::App& command, StudyWish& wish) {
  command.add_option("job", wish.job, "the job file")->required()->type_name(a_job);
  command
      .add_option("--file", wish.file,
                  "keep the study in this file (SQLite); without it beside the job, with the ending .studies")
      ->type_name(a_file);
  command.add_flag("--resume", wish.resume, "go on with what the file has of this study");
  command.add_flag("--anew", wish.anew, "drop what the file has of this study and begin again");
  command.add_option(
      "--shard", wish.shard,
      "only the K-th of N parts, \"3/8\": for several machines; poise merge puts them together");
  command
      .add_option("--csv", wish.csv,
                  "write the answer to this CSV file: a line for each machine, or for each fault")
      ->type_name(a_csv);
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

bool asks_a_part_for_an_answer(const StudyWish& wish, const study::Shard& shard) {
  if (shard.whole() || (wish.csv.empty() && !wish.json)) return false;
  complain(
      "--csv and --json are about the whole study: run the parts without them, put them together with poise "
      "merge, and ask the merged file");
  return true;
}

std::optional<OpenStudy> open_or_complain(const StudyWish& wish, const study::Heading& heading,
                                          const study::Heading& counted, std::string_view items) {
  const std::filesystem::path file = study_file(wish);
  auto opened = study::Record::open(file, study::Access::write);
  if (const auto* why = std::get_if<std::string>(&opened)) return complain(*why);
  auto& record = std::get<study::Record>(opened);
  std::string complaint;
  if (wish.anew) complaint = forget_all(record, heading);
  const auto there = complaint.empty() ? record.find(counted, complaint) : std::nullopt;
  if (complaint.empty() && there && !wish.anew && !wish.resume) {
    const auto shard = study::read_shard(wish.shard).value_or(study::Shard{});
    const long done = done_of(record.done(*there, complaint), shard);
    const long wanted =
        static_cast<long>(study::left_to_do(counted.first, counted.first + counted.wanted, shard, {}).size());
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
  std::ostringstream out;
  const std::string complaint = study::write_csv(out, open.record, open.id, world);
  if (complaint.empty()) return written_or_complain(wish.csv, out.view());
  complain(complaint);
  return false;
}

}  // namespace poise::cli
