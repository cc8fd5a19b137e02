// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/find.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include "cli/command.hpp"
#include "cli/progress.hpp"
#include "judge/outcome.hpp"
#include "judge/page.hpp"

namespace poise::cli {
namespace {

struct FindWish {
  std::string job, enough = "10 %";
  bool dry = false, worst = false;
};

/// `95.0 bar (clamped in time)`; empty where it holds to the end of its range.
std::string in_words(const search::Edge& edge, Quantity quantity, const Job& job) {
  if (!edge.at) return {};
  const std::string what = edge.is_rule ? fmt::format("rule \"{}\"", edge.breaks) : edge.breaks;
  return fmt::format("{} ({})", units::show(*edge.at, quantity, job.world), what);
}

std::string reason(const search::FoundValue& value, const Job& job) {
  if (value.open.is == search::OpenValue::Is::word) return "the best of its words";
  if (value.open.is == search::OpenValue::Is::model) return fmt::format("cost {:g}", value.cost);
  const std::string below = in_words(value.edges.below, value.open.quantity, job);
  const std::string above = in_words(value.edges.above, value.open.quantity, job);
  if (below.empty() && above.empty()) return "nothing breaks in its whole range";
  return fmt::format("breaks at {}{}{}", below, !below.empty() && !above.empty() ? " and at " : "", above);
}

void print_values(const search::Found& found, const Job& job) {
  std::size_t name = 0, text = 0;
  for (const search::FoundValue& value : found.values) {
    name = std::max(name, columns(value.open.name));
    text = std::max(text, columns(value.text));
  }
  for (const search::FoundValue& value : found.values) {
    const std::size_t indent = 2 + name + 2 + text + 3;
    fmt::print("  {}  {}   {}\n", left(value.open.name, name), right(value.text, text),
               wrapped(found.holds() ? reason(value, job) : "", 100, indent));
  }
}

void print_passed_over(const search::Found& found) {
  for (const search::FoundValue& value : found.values) {
    if (value.passed_over.empty()) continue;
    if (value.text.empty())
      fmt::print("\n{}: none of these\n", value.open.name);
    else
      fmt::print("\n{}: {} and not\n", value.open.name, value.text);
    std::size_t model = 0;
    for (const search::Rejected& other : value.passed_over)
      model = std::max(model, columns(other.item->model));
    for (const search::Rejected& other : value.passed_over)
      fmt::print("  {}  {}\n", left(other.item->model, model), wrapped(other.why, 100, model + 4));
  }
}

std::string room(const Finding& finding, const Job& job) {
  if (!finding.margin) return finding.held ? "" : "no number";
  std::string text = units::show_difference(*finding.margin, finding.quantity, job.world);
  if (finding.share) text += fmt::format("  ({:.1f} %)", 100.0 * *finding.share);
  return text;
}

/// "at the bad end 3.1 %": what is left of a finding where the tolerances are against it.
std::string at_the_bad_end(const search::Trial& trial, std::size_t finding) {
  const auto place = std::ranges::find(trial.finding, finding) - trial.finding.begin();
  const double share = search::plain_share(trial.shares[static_cast<std::size_t>(place)]);
  return fmt::format("at the bad end {:.1f} %", 100.0 * share);
}

void print_margins(const search::Trial& trial, const Job& job, bool worst) {
  constexpr std::size_t widest = 48;
  std::size_t name = 0;
  for (const Finding& finding : trial.verdict.findings) name = std::max(name, columns(finding.name));
  name = std::min(name, widest);
  for (std::size_t i = 0; i < trial.verdict.findings.size(); ++i) {
    const Finding& finding = trial.verdict.findings[i];
    fmt::print("  {}  {}  {}{}\n", finding.held ? "held  " : "BROKEN", left(finding.name, name),
               worst ? left(room(finding, job), 24) : room(finding, job),
               worst && finding.share ? at_the_bad_end(trial, i) : "");
  }
}

void print_conflicts(const search::Found& found, const Job& job) {
  for (const search::Conflict& conflict : found.conflicts) {
    const bool alone = conflict.sides.size() == 1;
    fmt::print("\n{}\n",
               alone ? "This cannot be held by any of the values:" : "These cannot be held together:");
    for (const search::Side& side : conflict.sides) {
      fmt::print("  {} ({})\n    {}comes to: {}{}\n", side.name, side.promised,
                 alone ? "" : "with the others held it ", side.gives,
                 side.short_by ? fmt::format("; it would have to give {}",
                                             units::show_difference(*side.short_by, side.quantity, job.world))
                               : "");
    }
  }
}

void print_rules(const search::Trial& trial) {
  const long hurts = trial.verdict.not_kept(rules::Harm::hurts),
             damages = trial.verdict.not_kept(rules::Harm::damages),
             badly = trial.verdict.not_kept(rules::Harm::works_badly);
  if (hurts + damages + badly == 0) return;
  fmt::print(
      "\nRules of the trade that are not kept: {} that can hurt someone, {} that can damage, {} that work "
      "badly; "
      "poise prove lists them.\n",
      hurts, damages, badly);
}

/// Writes beside the job and puts it in its place, so that a full disk leaves the old one.
bool write_back(const std::string& path, const std::string& text) {
  const std::string beside = path + ".part";
  std::ofstream out(beside, std::ios::binary);
  out << text;
  out.close();
  std::error_code error;
  if (out) std::filesystem::rename(beside, path, error);
  if (out && !error) return true;
  std::filesystem::remove(beside, error);
  fmt::print(stderr, "{} cannot be written; the found values stand above\n", path);
  return false;
}

int find(const FindWish& wish) {
  std::string text;
  const auto read = read_job_file_to_find(wish.job, &text);
  if (const auto* complaints = std::get_if<Complaints>(&read)) {
    fmt::print(stderr, "{}", complaints->text(text));
    return cannot;
  }
  const Job& job = std::get<Job>(read);
  if (job.sought.empty()) {
    fmt::print(stderr,
               "{} leaves nothing open; write \"find\" in place of a value that is to be worked out\n",
               wish.job);
    return cannot;
  }
  const units::Reading enough = units::read(wish.enough, Quantity::share);
  if (!enough.value) {
    fmt::print(stderr, "--enough: {}\n", enough.complaint);
    return cannot;
  }
  Progress progress("finding " + job.title);
  const search::Found found =
      search::find(text, job, {.enough = *enough.value, .worst = wish.worst, .progress = [&](double share) {
                                 return progress.at(share);
                               }});
  if (found.stopped) {
    fmt::print(stderr, "stopped by hand; nothing is written\n");
    return cannot;
  }
  if (found.runs == 0) {
    fmt::print("{}\n\nNOT FOUND: the stock has nothing that fits\n", job.title);
    print_passed_over(found);
    return something_broken;
  }
  fmt::print("{}\n\n{}\n\n", job.title,
             found.holds() ? fmt::format("FOUND: everything holds ({} runs)", found.runs)
                           : fmt::format("NOT FOUND: no values hold everything ({} runs)", found.runs));
  print_values(found, job);
  fmt::print("\nWith these values{}\n", wish.worst ? ", at the bad end of every tolerance" : "");
  print_margins(found.trial, job, wish.worst);
  print_passed_over(found);
  print_conflicts(found, job);
  print_rules(found.trial);
  fmt::print("\n{}\n", notice);
  if (!found.holds()) return something_broken;
  if (!wish.dry && !write_back(wish.job, found.text)) return cannot;
  if (!wish.dry) fmt::print("\nWritten into {}.\n", wish.job);
  return all_held;
}

}  // namespace

void add_find(CLI::App& program, int& exit_code) {
  auto wish = std::make_shared<FindWish>();
  CLI::App* command = program.add_subcommand(
      "find", "Work out every value that reads \"find\" so that all holds with the largest smallest margin");
  command->add_option("job", wish->job, "the job file")->required();
  command->add_flag("--dry", wish->dry, "only print the values; leave the file as it is");
  command->add_flag("--worst", wish->worst, "margins at the bad end of every tolerance");
  command->add_option("--enough", wish->enough,
                      "margin that is ample: of the sizes that have it the smaller is taken (10 %)");
  command->footer(
      "Ends with 0 when values were found and written, 1 when no values hold everything (nothing is "
      "written), 2 when "
      "the job cannot be read.");
  command->callback([wish, &exit_code] { exit_code = find(*wish); });
}

}  // namespace poise::cli
