// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/diagnosis.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "cli/command.hpp"
#include "cli/progress.hpp"
#include "cli/read.hpp"
#include "cli/study_file.hpp"
#include "diagnose/kept.hpp"
#include "diagnose/readings_file.hpp"
#include "judge/show.hpp"

namespace poise::cli {
namespace {

struct DiagnoseOptions {
  std::string job, readings, baseline, file;
  bool json = false;
};

/// The readings of a file, or none after all complaints about it.
std::optional<diagnose::Readings> readings_or_complain(const std::filesystem::path& path,
                                                       const diagnose::AtlasWork& work) {
  std::string text;
  auto read = diagnose::read_readings_file(path, work.job, work.watches, &text);
  if (const auto* complaints = std::get_if<Complaints>(&read)) {
    fmt::print(stderr, "{}", complaints->text(text));
    return std::nullopt;
  }
  return std::get<diagnose::Readings>(std::move(read));
}

/// The readings of commissioning: those named, else those beside the job where there are any.
std::optional<diagnose::Readings> baseline_or_complain(const DiagnoseOptions& options,
                                                       const diagnose::AtlasWork& work) {
  std::error_code missing;
  std::filesystem::path path = options.baseline;
  if (path.empty()) {
    path = diagnose::baseline_of(options.job);
    if (!std::filesystem::is_regular_file(path, missing)) return diagnose::Readings{};
  }
  return readings_or_complain(path, work);
}

/// Puts the further moments of a file behind those of the work; its readings then know them there.
void join(diagnose::AtlasWork& work, diagnose::Readings& readings, std::size_t listed) {
  const std::size_t moved = work.watches.size() - listed;
  for (diagnose::Reading& reading : readings.list) {
    if (reading.watch >= listed) reading.watch += moved;
  }
  diagnose::add_watches(work, readings.more);
}

/// Readings of commissioning that are not those of a sound machine mislead all later ones.
void warn_of_baseline(const diagnose::Atlas& atlas, const diagnose::Readings& baseline) {
  if (baseline.list.empty()) return;
  const diagnose::Machine unknown = diagnose::unknown_machine(atlas);
  const diagnose::Belief belief(atlas, unknown, baseline);
  const diagnose::Suspect& first = belief.suspects().front();
  if (first.course == diagnose::Suspect::sound && belief.fits(first)) return;
  fmt::print(stderr,
             "the readings of commissioning are not those of a sound machine ({}): look into them first\n",
             first.course == diagnose::Suspect::sound ? "nothing explains them"
                                                      : atlas.courses[first.course].place.name);
}

std::string shown_readings(const diagnose::Diagnosis& diagnosis) {
  std::string text;
  for (const diagnose::Seen& seen : diagnosis.seen) {
    if (seen.out_of_band) text += fmt::format("  {}: {}, sound {}\n", seen.name, seen.reads, seen.sound);
  }
  if (text.empty()) return "all readings within their bands\n";
  return "out of their bands\n" + text;
}

int diagnose_job(const DiagnoseOptions& options, const std::string& version) {
  std::string text;
  const auto job = read_or_complain(options.job, &text);
  if (!job) return cannot;
  Progress progress("looking for what is wrong with " + job->title);
  auto prepared = diagnose::prepare_atlas(*job, [&] { return progress.at(0.0); });
  if (const auto* why = std::get_if<std::string>(&prepared)) {
    fmt::print(stderr, "{}\n", *why);
    return cannot;
  }
  if (!std::holds_alternative<diagnose::AtlasWork>(prepared)) {
    fmt::print(stderr, "stopped by hand\n");
    return cannot;
  }
  auto& work = std::get<diagnose::AtlasWork>(prepared);
  const std::size_t listed = work.watches.size();
  auto readings = readings_or_complain(options.readings, work);
  auto baseline = baseline_or_complain(options, work);
  if (!readings || !baseline) return cannot;
  join(work, *readings, listed);
  join(work, *baseline, listed);
  const std::filesystem::path file = study_file({.job = options.job, .file = options.file});
  const auto atlas = diagnose::atlas_of(work, text, version, file, diagnose::Much::all,
                                        [&](double share) { return progress.at(share); });
  if (!atlas) {
    fmt::print(stderr, "stopped by hand; what was run is kept in {}\n", file.string());
    return cannot;
  }
  const diagnose::Machine machine = diagnose::machine_of(*atlas, baseline->list);
  warn_of_baseline(*atlas, *baseline);
  const diagnose::Diagnosis diagnosis = diagnose::diagnose(*atlas, machine, *readings, job->world);
  if (options.json) {
    fmt::print("{}\n", diagnose::to_json(diagnosis).dump(2));
  } else {
    fmt::print("{}: {} {}{}\n\n{}\n{}\n{}\n", job->title, readings->list.size(),
               readings->list.size() == 1 ? "reading" : "readings",
               baseline->list.empty() ? "" : fmt::format(", {} of commissioning", baseline->list.size()),
               shown_readings(diagnosis), diagnose::show(diagnosis), notice);
  }
  return diagnosis.groups.front().is_sound ? all_held : something_broken;
}

}  // namespace

void add_diagnose(CLI::App& program, int& exit_code) {
  auto options = std::make_shared<DiagnoseOptions>();
  CLI::App* command = program.add_subcommand(
      "diagnose", "From readings of a machine back to what is wrong with it, and what to measure next");
  command->add_option("job", options->job, "the job file")->required()->type_name(a_job);
  command
      ->add_option("readings", options->readings,
                   "what the instruments showed: TOML or CSV (docs/readings.md)")
      ->required()
      ->type_name(a_file);
  command
      ->add_option(
          "--baseline", options->baseline,
          "readings of the sound machine (else JOB.baseline.toml beside the job, where there is one)")
      ->type_name(a_file);
  command->add_option("--file", options->file, "where runs are kept (JOB.studies)")->type_name(a_file);
  command->add_flag("--json", options->json, "the answer as JSON");
  command->footer(
      "Ends with 0 when nothing wrong explains the readings best, 1 when a fault or a setting does, 2 when "
      "job or "
      "readings cannot be read.");
  command->callback(
      [options, &program, &exit_code] { exit_code = diagnose_job(*options, program.version()); });
}

}  // namespace poise::cli
