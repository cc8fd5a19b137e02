// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/command.hpp"
#include "cli/progress.hpp"
#include "cli/read.hpp"
#include "cli/study_file.hpp"
#include "cli/to_file.hpp"
#include "study/fault_study.hpp"
#include "study/fault_table.hpp"
#include "study/sampling.hpp"

namespace poise::cli {
namespace {

struct FaultOptions {
  StudyWish study;
  bool pairs = false;
};

/// False after saying why a crew's work ended early.
bool came_to_its_end(const study::Came& came, const StudyWish& wish) {
  if (!came.complaint.empty())
    fmt::print(stderr, "{}\n", came.complaint);
  else if (came.stopped)
    fmt::print(stderr, "stopped by hand; what was run is kept in {}: --resume goes on\n",
               study_file(wish).string());
  return came.complaint.empty() && !came.stopped;
}

struct Results {
  std::vector<study::FaultResult> faults;
  std::vector<study::PairResult> pairs;
  study::Progress runs;
};

/// All faults, and pairs where they are wished; none after a complaint.
std::optional<Results> run(const study::FaultStudy& study, OpenStudy& open, const FaultOptions& options,
                           Progress& progress) {
  const auto faults =
      static_cast<double>(study.list.places.size()) / static_cast<double>(study.wish.shard.of);
  const auto told = [&](double all) {
    return
        [&progress, all](long done) { return progress.at(static_cast<double>(done) / std::max(all, 1.0)); };
  };
  if (!came_to_its_end(study::run_faults(study, open.record, open.id, told(faults)), options.study))
    return std::nullopt;
  std::string complaint;
  Results results{.faults = study::faults_recorded(study, open.record, open.id, complaint)};
  if (complaint.empty() && options.pairs && !std::ranges::all_of(results.faults, &study::FaultResult::done))
    complaint =
        "--pairs needs all faults first: run the parts without it, put them together with poise merge, and "
        "begin each part of the pairs with a copy of the merged file";
  if (complaint.empty() && options.pairs) {
    const std::vector<study::FaultPair> pairs = study::pairs_of(results.faults);
    const long id = open.record.study(study::heading_of_pairs(study, pairs), complaint);
    if (complaint.empty()) {
      const double share = static_cast<double>(pairs.size()) / static_cast<double>(study.wish.shard.of);
      if (!came_to_its_end(study::run_pairs(study, pairs, open.record, id, told(share)), options.study))
        return std::nullopt;
      results.pairs = study::results_of(pairs, study.list.places, open.record.rows(id, complaint));
    }
  }
  if (complaint.empty()) return results;
  fmt::print(stderr, "{}\n", complaint);
  return std::nullopt;
}

/// Faults that this job has nothing to change for, with the reason.
std::string not_tried(std::span<const study::NotApplicable> faults) {
  std::string text;
  for (const study::NotApplicable& each : faults) text += fmt::format("  {}: {}\n", each.name, each.reason);
  return text.empty() ? text : "\nnot tried\n" + text;
}

bool write_table(const std::string& path, std::span<const study::FaultLine> lines) {
  if (path.empty()) return true;
  std::ostringstream out;
  study::write_fault_csv(out, lines);
  return written_or_complain(path, out.view());
}

int faults(const FaultOptions& options, const std::string& version) {
  std::string text;
  const auto job = read_or_complain(options.study.job, &text);
  const auto shard = shard_or_complain(options.study);
  if (!job || !shard || asks_a_part_for_an_answer(options.study, *shard)) return cannot;
  if (!options.study.csv.empty() && !may_write_or_complain(options.study.csv)) return cannot;
  Progress progress("trying faults of " + job->title);
  auto prepared =
      study::prepare_faults(*job, text, version, {.shard = *shard}, [&] { return progress.at(0.0); });
  if (const auto* why = std::get_if<std::string>(&prepared)) {
    fmt::print(stderr, "{}\n", *why);
    return cannot;
  }
  if (!std::holds_alternative<study::FaultStudy>(prepared)) {
    fmt::print(stderr, "stopped by hand\n");
    return cannot;
  }
  const auto& study = std::get<study::FaultStudy>(prepared);
  auto open = open_or_complain(options.study, study.heading, study::heading_of_through(study), "faults");
  if (!open) return cannot;
  const auto results = run(study, *open, options, progress);
  if (!results) return cannot;
  if (const std::string complaint = open->record.close(); !complaint.empty())
    fmt::print(stderr, "{}\n", complaint);
  if (!shard->whole()) {
    fmt::print("{}: part {} of {} is in {}; poise merge puts the parts together\n", study.heading.title,
               shard->number, shard->of, study_file(options.study).string());
    return all_held;
  }
  const std::vector<study::FaultLine> lines = study::fault_lines(*job, results->faults, results->pairs);
  if (!write_table(options.study.csv, lines)) return cannot;
  const auto count = static_cast<long>(study.list.places.size());
  if (options.study.json) {
    fmt::print("{}\n", study::faults_to_json(*job, results->faults, results->pairs, study.list.not_applicable,
                                             {.wanted = count, .done = count})
                           .dump(2));
  } else {
    fmt::print("{}\n\n{}{}\n{}\n", job->title, study::show_faults(lines, isatty(fileno(stdout)) != 0),
               not_tried(study.list.not_applicable), notice);
  }
  const bool something = std::ranges::any_of(
      lines, [](const study::FaultLine& line) { return line.severity != study::Severity::nothing_breaks; });
  return something ? something_broken : all_held;
}

}  // namespace

void add_faults(CLI::App& program, int& exit_code) {
  auto options = std::make_shared<FaultOptions>();
  CLI::App* command = program.add_subcommand(
      "faults",
      "Try each fault of each part, of lines, oil, power and people: what breaks, and would it show");
  add_study_options(*command, options->study);
  command->add_flag("--pairs", options->pairs,
                    "also two faults at once, of those that break nothing alone; takes many runs");
  command->footer(
      "Ends with 0 when no fault breaks a promise, 1 when one does, 2 when the job cannot be read or run or "
      "the "
      "study cannot be kept.");
  command->callback([options, &program, &exit_code] { exit_code = faults(*options, program.version()); });
}

}  // namespace poise::cli
