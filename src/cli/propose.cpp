// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/propose.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <memory>

#include "cli/command.hpp"
#include "cli/look.hpp"
#include "cli/progress.hpp"
#include "cli/to_file.hpp"
#include "draw/schematic.hpp"
#include "draw/sheet.hpp"
#include "draw/show.hpp"
#include "draw/svg.hpp"
#include "draw/words.hpp"
#include "judge/outcome.hpp"
#include "judge/page.hpp"

namespace poise::cli {
namespace {

struct ProposeWish {
  std::string job, folder;
  int most = 5, tried = 20;
  bool worst = false;
};

std::string drawing_of(const Job& job, const std::filesystem::path& file) {
  const std::vector<draw::Words> words = draw::words_of(job);
  const draw::Schematic schematic = draw::arrange(job.plan, words, draw::wishes_of(job));
  const draw::Look look = look_of(job, job.drawing.paper, file);
  return draw::svg(draw::sheet_of(schematic, job.plan, words, look));
}

/// "single-lift-2.toml".
std::string name_of(const std::filesystem::path& job, int number) {
  return fmt::format("{}-{}.toml", job.stem().string(), number);
}

/// The job's text; where it does not hold, its first line says so.
std::string marked(const search::Proposal& proposal) {
  const std::string& text = proposal.found.text;
  return proposal.found.holds() ? text
                                : "# DOES NOT HOLD as proposed: prove it before anything is built.\n" + text;
}

/// "held, 12.3 % room at least (lowered in time); 17 parts, cost 820".
std::string in_a_line(const search::Proposal& proposal) {
  const search::Trial& trial = proposal.found.trial;
  const auto& findings = trial.verdict.findings;
  std::string line;
  if (proposal.found.runs == 0) {
    line = "the stock has nothing that fits";
  } else if (!proposal.found.too_weak.empty()) {
    line = "TOO WEAK: " + proposal.found.too_weak.front();
  } else if (!trial.holds()) {
    const auto broken = std::ranges::find(findings, false, &Finding::held);
    line = fmt::format("BROKEN: {}", broken != findings.end() ? broken->name
                                     : trial.runs             ? "at the bad end of a tolerance"
                                                              : "it cannot be run");
  } else {
    const auto least = std::ranges::min_element(trial.shares) - trial.shares.begin();
    line = fmt::format("held, {:.1f} % room at least ({})", 100.0 * trial.smallest(),
                       search::finding_of(trial, static_cast<std::size_t>(least)).name);
  }
  line += fmt::format("; {} parts", proposal.parts);
  if (proposal.cost > 0.0) line += fmt::format(", cost {:g}", proposal.cost);
  return line;
}

void print_rules(const Verdict& verdict) {
  for (const RuleNotKept& rule : verdict.rules) {
    if (rule.rule->harm == rules::Harm::worth_knowing || !rule.waived.empty()) continue;
    fmt::print(
        "     {}\n",
        wrapped(fmt::format("not kept, {}: {}", rules::words_of(rule.rule->harm), rule.rule->name), 100, 7));
  }
}

void print(const search::Proposal& proposal, std::size_t number, const std::filesystem::path& file) {
  fmt::print("\n{}  {}\n   {}\n   {}\n", number, wrapped(proposal.circuit.name, 100, 3),
             wrapped(in_a_line(proposal), 100, 3), file.string());
  for (const compose::BlockReason& reason : proposal.circuit.reasons)
    fmt::print("     {}\n", wrapped(fmt::format("{}: {}", reason.block, reason.sentence), 100, 7));
  std::string values;
  for (const search::FoundValue& value : proposal.found.values)
    values += fmt::format("{}{} {}", values.empty() ? "" : ", ", value.open.name, value.text);
  if (!values.empty()) fmt::print("     {}\n", wrapped("found: " + values, 100, 7));
  print_rules(proposal.found.trial.verdict);
}

/// Where the circuits go; none after a complaint. What somebody may have worked on is not written over, and
/// paths in a job start from its own folder.
std::optional<std::filesystem::path> folder_for(const ProposeWish& wish, const Job& job) {
  const std::filesystem::path file(wish.job);
  std::filesystem::path folder = wish.folder.empty() ? file.stem().string() + "-circuits" : wish.folder;
  std::error_code error;
  const std::filesystem::path own = std::filesystem::weakly_canonical(file, error).parent_path();
  if (job.stock && std::filesystem::weakly_canonical(folder, error) != own) {
    fmt::print(
        stderr,
        "the job names its stock by a path from its own folder; let the circuits be written there: -o {}\n",
        own.string());
    return std::nullopt;
  }
  for (int i = 1; i <= wish.most; ++i) {
    const std::filesystem::path there = folder / name_of(file, i);
    if (!std::filesystem::exists(there, error)) continue;
    fmt::print(stderr, "{} is there already and is not written over; name another folder with -o\n",
               there.string());
    return std::nullopt;
  }
  if (!may_make_folder_or_complain(folder)) return std::nullopt;
  return folder;
}

int propose(const ProposeWish& wish) {
  std::string text;
  const auto read = read_job_file_to_compose(wish.job, &text);
  if (const auto* complaints = std::get_if<Complaints>(&read)) {
    fmt::print(stderr, "{}", complaints->text(text));
    return cannot;
  }
  const auto folder = folder_for(wish, std::get<Job>(read));
  if (!folder) return cannot;
  Progress progress("composing circuits");
  auto result =
      search::propose(text, wish.job,
                      {.find = {.worst = wish.worst},
                       .most = static_cast<std::size_t>(wish.most),
                       .tried = static_cast<std::size_t>(wish.tried),
                       .progress = [&](double share, std::string_view) { return progress.at(share); }});
  if (const auto* complaints = std::get_if<Complaints>(&result)) {
    fmt::print(stderr, "{}", complaints->text(text));
    return cannot;
  }
  const auto& proposals = std::get<std::vector<search::Proposal>>(result);
  if (proposals.empty()) {
    fmt::print(stderr, "no circuit was worked out\n");
    return cannot;
  }
  if (!made_folder_or_complain(*folder)) return cannot;
  fmt::print("{}\n", proposals.front().job.title);
  for (std::size_t i = 0; i < proposals.size(); ++i) {
    const std::filesystem::path file = *folder / name_of(wish.job, static_cast<int>(i) + 1);
    std::filesystem::path drawing = file;
    drawing.replace_extension(".svg");
    print(proposals[i], i + 1, file);
    if (proposals[i].found.runs == 0) continue;
    if (!written_or_complain(file, marked(proposals[i])) ||
        !written_or_complain(drawing, drawing_of(proposals[i].job, file)))
      return cannot;
  }
  fmt::print("\n{}\n", notice);
  return proposals.front().found.holds() ? all_held : something_broken;
}

}  // namespace

void add_propose(CLI::App& program, int& exit_code) {
  auto wish = std::make_shared<ProposeWish>();
  CLI::App* command = program.add_subcommand(
      "propose", "Compose circuits for a job that has actuators, steps and requirements but no circuit");
  command->add_option("job", wish->job, "the job file (docs/job-file.md, \"A job without a circuit\")")
      ->required()
      ->type_name(a_job);
  command->add_option("-o", wish->folder, "folder for the jobs and their drawings (JOB-circuits)")
      ->type_name(a_folder);
  command->add_option("--most", wish->most, "how many at most (5)")->check(CLI::Range(1, 20));
  command
      ->add_option("--try", wish->tried, "of the circuits that are composed, work out only the first so many")
      ->check(CLI::Range(1, 20));
  command->add_flag("--worst", wish->worst,
                    "margins where the tolerances are against them, at the corners foretold to be worst");
  command->footer(
      "Ends with 0 when a circuit holds everything, 1 when none does, 2 when the job cannot be read.");
  command->callback([wish, &exit_code] { exit_code = propose(*wish); });
}

}  // namespace poise::cli
