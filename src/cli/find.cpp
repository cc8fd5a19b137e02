// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/find.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include "cli/command.hpp"
#include "cli/progress.hpp"
#include "desk/whole_file.hpp"
#include "judge/outcome.hpp"
#include "judge/page.hpp"

namespace poise::cli {
namespace {

struct FindWish {
  std::string job, enough = "10 %";
  bool dry = false, worst = false;
};

/// `below, clamped in time breaks`; empty where nothing was seen to break.
std::string side_in_words(std::string_view side, const search::Edge& edge) {
  if (!edge.at) return edge.to_the_end ? "" : fmt::format("{}, not looked further", side);
  return edge.is_rule ? fmt::format("{}, the rule \"{}\" is no longer kept", side, edge.breaks)
                      : fmt::format("{}, \"{}\" breaks", side, edge.breaks);
}

std::string reason(const search::FoundValue& value, const Job& job) {
  if (value.open.is == search::OpenValue::Is::word) return "the best of its words";
  if (value.open.is == search::OpenValue::Is::model) return fmt::format("cost {:g} by its list", value.cost);
  const auto& [below, above] = value.edges;
  if (!below.good || !above.good) return "";
  const auto show = [&](double at) { return units::show(at, value.open.quantity, job.world); };
  std::string text = *below.good == *above.good
                         ? std::string("holds here alone")
                         : fmt::format("holds from {} to {}", show(*below.good), show(*above.good));
  for (const std::string& side : {side_in_words("below", below), side_in_words("above", above)}) {
    if (!side.empty()) text += "; " + side;
  }
  return text;
}

void print_values(const search::Found& found, const Job& job) {
  std::size_t name = 0, text = 0;
  for (const search::FoundValue& value : found.values) {
    name = std::max(name, columns(value.open.name));
    text = std::max(text, columns(value.text));
  }
  for (const search::FoundValue& value : found.values) {
    const std::size_t indent = 2 + name + 2 + text + 3;
    const std::string why = found.holds() ? "   " + wrapped(reason(value, job), 100, indent) : "";
    fmt::print("  {}  {}{}\n", left(value.open.name, name), right(value.text, text), why);
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

double share_at(const search::Trial& trial, std::size_t finding) {
  const auto place = std::ranges::find(trial.finding, finding) - trial.finding.begin();
  return search::plain_share(trial.shares[static_cast<std::size_t>(place)]);
}

/// "at the bad end 3.1 %": what is left of a finding where the tolerances are against it.
std::string at_the_bad_end(const search::Trial& trial, std::size_t finding) {
  return fmt::format("at the bad end {:.1f} %", 100.0 * share_at(trial, finding));
}

void print_margins(const search::Trial& trial, const Job& job, bool worst) {
  constexpr std::size_t widest = 48;
  std::size_t name = 0;
  for (const Finding& finding : trial.verdict.findings) name = std::max(name, columns(finding.name));
  name = std::min(name, widest);
  for (std::size_t i = 0; i < trial.verdict.findings.size(); ++i) {
    const Finding& finding = trial.verdict.findings[i];
    fmt::print("  {}  {}  {}{}\n",
               finding.held && (!worst || share_at(trial, i) >= 0.0) ? "held  " : "BROKEN",
               left(finding.name, name), worst ? left(room(finding, job), 24) : room(finding, job),
               worst && finding.share ? at_the_bad_end(trial, i) : "");
  }
}

void print_conflicts(const search::Found& found, const Job& job) {
  for (const search::Conflict& conflict : found.conflicts) {
    const bool alone = conflict.sides.size() == 1;
    fmt::print("\n{}\n", alone ? "No trial held this:" : "No trial held these together:");
    for (const search::Side& side : conflict.sides) {
      fmt::print("  {} ({})\n    {}comes to: {}{}\n", side.name, side.promised,
                 alone ? "" : "with the others held it ", side.gives,
                 side.short_by ? fmt::format("; it would have to give {}",
                                             units::show_difference(*side.short_by, side.quantity, job.world))
                               : "");
    }
  }
}

/// Rules of the trade that the values do not keep, by name: what can hurt someone first.
void print_rules(const search::Trial& trial) {
  for (const rules::Harm harm : {rules::Harm::hurts, rules::Harm::damages, rules::Harm::works_badly}) {
    std::vector<std::string> names;
    for (const RuleNotKept& rule : trial.verdict.rules) {
      const std::string name = fmt::format("\"{}\"", rule.rule->name);
      if (rule.rule->harm == harm && rule.waived.empty() && std::ranges::find(names, name) == names.end())
        names.push_back(name);
    }
    if (names.empty()) continue;
    fmt::print("{}\n", wrapped(fmt::format("Not kept, {}: {}", rules::words_of(harm), fmt::join(names, ", ")),
                               100, 2));
  }
}

/// Puts the text in the job's place, whole (`desk::put`), but not over a file that has changed since it was
/// read.
bool write_back(const std::string& named, const std::string& before, const std::string& text) {
  std::error_code error;
  const std::filesystem::path path = std::filesystem::canonical(named, error);
  std::ifstream now(path, std::ios::binary);
  if (error || !now || std::string(std::istreambuf_iterator<char>(now), {}) != before) {
    fmt::print(stderr, "{} was changed meanwhile and is left as it is; the found values stand above\n",
               named);
    return false;
  }
  const std::string name = path.filename();
  const desk::Descriptor folder = desk::open_folder(path.parent_path());
  const std::string why = folder ? desk::put(folder.get(), path.parent_path(), name, text,
                                             desk::entry_of(folder.get(), name), desk::Place::may_be_taken)
                                 : desk::why_no_folder(path.parent_path(), errno);
  if (why.empty()) return true;
  fmt::print(stderr, "{}; the found values stand above\n", why);
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
  fmt::print("{}\n\n{}\n", job.title,
             found.holds() ? fmt::format("FOUND: every requirement holds ({} runs)", found.runs)
                           : fmt::format("NOT FOUND: none of {} trials held everything", found.runs));
  if (!found.trial.runs) fmt::print("Nothing that was tried goes together and can be run to its end.\n");
  print_rules(found.trial);
  for (const std::string& weak : found.too_weak)
    fmt::print("Too weak, and nothing stronger was found: {}\n", weak);
  if (!found.complaint.empty()) fmt::print("Cannot be written into the job: {}\n", found.complaint);
  fmt::print("\n");
  print_values(found, job);
  fmt::print("\nWith these values{}\n",
             wish.worst ? ", and at the corners of all tolerances that are foretold to be worst" : "");
  print_margins(found.trial, job, wish.worst);
  print_passed_over(found);
  print_conflicts(found, job);
  fmt::print("\n{}\n", notice);
  if (!found.holds()) return something_broken;
  if (wish.dry) return all_held;
  const auto again = read_job(found.text, wish.job);
  if (const auto* complaints = std::get_if<Complaints>(&again)) {
    fmt::print(stderr, "nothing is written: with the found words the job would read\n{}",
               complaints->text(found.text));
    return cannot;
  }
  if (!write_back(wish.job, text, found.text)) return cannot;
  fmt::print("\nWritten into {}.\n", wish.job);
  return all_held;
}

}  // namespace

void add_find(CLI::App& program, int& exit_code) {
  auto wish = std::make_shared<FindWish>();
  CLI::App* command = program.add_subcommand(
      "find", "Work out every value that reads \"find\" so that all holds with the largest smallest margin");
  command->add_option("job", wish->job, "the job file")->required()->type_name(a_job);
  command->add_flag("--dry", wish->dry, "only print the values; leave the file as it is");
  command->add_flag("--worst", wish->worst,
                    "margins where the tolerances are against them, at the corners foretold to be worst");
  command->add_option("--enough", wish->enough,
                      "margin that is ample: of the sizes that have it the smaller is taken (10 %)");
  command->footer(
      "Ends with 0 when values were found and written, 1 when none of those tried hold everything (nothing "
      "is written), "
      "2 when the job cannot be read.");
  command->callback([wish, &exit_code] { exit_code = find(*wish); });
}

}  // namespace poise::cli
