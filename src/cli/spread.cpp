// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>

#include "cli/command.hpp"
#include "cli/progress.hpp"
#include "cli/read.hpp"
#include "cli/study_file.hpp"
#include "cli/to_file.hpp"
#include "judge/show.hpp"
#include "study/sampling.hpp"
#include "study/spread_json.hpp"
#include "study/spread_run.hpp"
#include "study/spread_words.hpp"

namespace poise::cli {
namespace {

struct SpreadOptions {
  StudyWish study;
  long machines = 1000;
  std::uint64_t seed = 1;
  long sample = -1;
};

/// One machine of the spread: what is off, and its whole verdict.
int show_sample(const study::Spread& spread, long number) {
  const std::vector<double> off = spread.off(number);
  Progress progress(fmt::format("proving machine {}", number));
  const auto go_on = [&](double share) { return progress.at(share); };
  const auto stated = study::run_machine(spread.job(), {.go_on = go_on});
  const long most = stated ? study::patience(stated->steps) : 0;
  const auto ran =
      study::run_machine(spread.machine(number), {.rules = true, .most_steps = most, .go_on = go_on});
  if (!ran) {
    fmt::print(stderr, "stopped by hand\n");
    return cannot;
  }
  fmt::print("Machine {}{}\n", number, number == 0 ? ": the job as stated" : ", off by");
  for (std::size_t i = 0; i < off.size() && number > 0; ++i)
    fmt::print("  {}\n", study::off_in_words(spread.loose()[i], off[i], spread.job()));
  fmt::print("\n{}", show(ran->verdict, spread.job(), isatty(fileno(stdout)) != 0));
  if (ran->verdict.halt && !ran->verdict.halt->by_the_machine()) return cannot;
  return ran->verdict.holds() ? all_held : something_broken;
}

/// Runs what is missing; false after saying why it ended early.
bool run_all(const study::SpreadStudy& study, OpenStudy& open, const StudyWish& wish, Progress& progress) {
  std::string complaint;
  const auto left = static_cast<double>(
      study::left_to_do(1, study.wish.machines + 1, study.wish.shard, open.record.done(open.id, complaint))
          .size());
  const study::Came came = study::run_spread(study, open.record, open.id, [&](long done) {
    return progress.at(left > 0.0 ? static_cast<double>(done) / left : 1.0);
  });
  if (!came.complaint.empty()) {
    fmt::print(stderr, "{}\n", came.complaint);
    return false;
  }
  if (came.stopped)
    fmt::print(stderr, "stopped by hand; what was run is kept in {}: --resume goes on\n",
               study_file(wish).string());
  return !came.stopped;
}

struct Answered {
  study::SpreadAnswer answer;
  std::vector<std::optional<study::Nearest>> nearest;
};

std::optional<Answered> answer(const study::SpreadStudy& study, OpenStudy& open, Progress& progress) {
  std::string complaint;
  const auto rows = open.record.rows(open.id, complaint);
  Answered answered;
  if (complaint.empty())
    answered.answer = study::answer_of(study.spread, study.heading.promises, rows, study.wish.machines);
  const long id = complaint.empty() ? open.record.study(study::heading_of_nearest(study), complaint) : 0;
  if (complaint.empty()) {
    const auto promises = static_cast<double>(study.heading.promises.size());
    const study::Came came = study::run_nearest(study, answered.answer, open.record, id, [&](long done) {
      return progress.at(static_cast<double>(done) / promises);
    });
    complaint = came.stopped ? "stopped by hand; the machines are kept, --resume goes on" : came.complaint;
  }
  if (complaint.empty()) answered.nearest = study::nearest_recorded(study, open.record, complaint);
  if (complaint.empty()) return answered;
  fmt::print(stderr, "{}\n", complaint);
  return std::nullopt;
}

int spread(const SpreadOptions& options, const std::string& version) {
  std::string text;
  auto job = read_or_complain(options.study.job, &text);
  const auto shard = shard_or_complain(options.study);
  if (!job || !shard || asks_a_part_for_an_answer(options.study, *shard)) return cannot;
  if (!options.study.csv.empty() && !may_write_or_complain(options.study.csv)) return cannot;
  if (options.sample >= 0) return show_sample(study::Spread(std::move(*job), options.seed), options.sample);
  const study::SpreadWish wish{.machines = options.machines, .seed = options.seed, .shard = *shard};
  Progress progress("spreading " + job->title);
  auto prepared = study::prepare(*job, text, version, wish, [&] { return progress.at(0.0); });
  if (const auto* why = std::get_if<std::string>(&prepared)) {
    fmt::print(stderr, "{}\n", *why);
    return cannot;
  }
  if (!std::holds_alternative<study::SpreadStudy>(prepared)) {
    fmt::print(stderr, "stopped by hand\n");
    return cannot;
  }
  const auto& study = std::get<study::SpreadStudy>(prepared);
  auto open = open_or_complain(options.study, study.heading, study.heading, "machines");
  if (!open || !run_all(study, *open, options.study, progress)) return cannot;
  if (!shard->whole()) {
    fmt::print("{}: part {} of {} is in {}; poise merge puts the parts together\n", study.heading.title,
               shard->number, shard->of, study_file(options.study).string());
    return all_held;
  }
  const auto answered = answer(study, *open, progress);
  if (!answered || !write_csv_or_complain(options.study, *open, study.spread.job().world)) return cannot;
  if (const std::string complaint = open->record.close(); !complaint.empty())
    fmt::print(stderr, "{}\n", complaint);
  if (options.study.json) {
    fmt::print("{}\n", study::to_json(answered->answer, answered->nearest, study.spread).dump(2));
  } else {
    fmt::print("{}\n{}\n",
               study::show(answered->answer, answered->nearest, study.spread, isatty(fileno(stdout)) != 0),
               notice);
  }
  return answered->answer.kept.of == answered->answer.kept.all ? all_held : something_broken;
}

}  // namespace

void add_spread(CLI::App& program, int& exit_code) {
  auto options = std::make_shared<SpreadOptions>();
  CLI::App* command = program.add_subcommand(
      "spread", "Prove a job on many machines whose values are off within their tolerances");
  add_study_options(*command, options->study);
  command->add_option("-n,--machines", options->machines, "how many machines (1000)")
      ->check(CLI::Range(1L, 100'000'000L));
  command->add_option("--seed", options->seed, "which machines: another number gives others (1)");
  command
      ->add_option("--sample", options->sample,
                   "only this machine, with its whole verdict; 0 is the job as stated")
      ->check(CLI::Range(0L, 100'000'000L));
  command->footer(
      "Ends with 0 when every machine keeps every promise, 1 when one does not, 2 when the job cannot be "
      "read or "
      "run or the study cannot be kept.");
  command->callback([options, &program, &exit_code] { exit_code = spread(*options, program.version()); });
}

}  // namespace poise::cli
