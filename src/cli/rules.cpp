// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include "cli/command.hpp"
#include "cli/progress.hpp"
#include "cli/read.hpp"
#include "cli/to_file.hpp"
#include "judge/page.hpp"
#include "prove/prove.hpp"
#include "reference/rules_page.hpp"
#include "rules/all.hpp"
#include "rules/confirm.hpp"
#include "units/nearest.hpp"

namespace poise::cli {
namespace {

constexpr std::size_t page_width = 100, harm_width = 18;

struct RulesWish {
  std::string name;
  std::string job;   ///< whose rules are wanted
  std::string file;  ///< where the whole catalogue is written to
};

std::string paragraph(std::string_view text, std::size_t indent) {
  return std::string(indent, ' ') + wrapped(text, page_width, indent) + "\n";
}

void print_list() {
  fmt::print("{} rules of the trade that \"poise prove\" looks for; \"poise rules NAME\" explains one.\n",
             rules::catalogue().size());
  for (const rules::Chapter& chapter : rules::chapters()) {
    if (chapter.rules.empty()) continue;
    fmt::print("\n{}\n", chapter.title);
    for (const rules::TradeRule* rule : chapter.rules)
      fmt::print("  {}{}\n", left(rules::words_of(rule->harm), harm_width), rule->name);
  }
}

void explain(const rules::TradeRule& rule) {
  fmt::print("{} ({})\n\n", rule.name, rules::words_of(rule.harm));
  fmt::print("{}{}{}", paragraph(rule.holds, 2), paragraph(rule.otherwise, 2),
             paragraph("→ " + std::string(rule.remedy), 2));
  std::string concerned;
  for (std::string_view kind : rule.kinds)
    concerned += fmt::format("{}{}", concerned.empty() ? "" : ", ", kind);
  fmt::print("\n{}{}", paragraph("Concerns: " + (concerned.empty() ? "the circuit" : concerned), 2),
             paragraph("Source: " + std::string(rule.source), 2));
  fmt::print(
      "\n  To waive it in a job:\n\n    [[waive]]\n    rule = \"{}\"\n    reason = \"why this may be\"\n",
      rule.name);
}

int explain_or_say_nearest(const std::string& name) {
  if (const rules::TradeRule* rule = rules::find_rule(name)) {
    explain(*rule);
    return all_held;
  }
  std::vector<std::string> known;
  for (const rules::TradeRule* rule : rules::catalogue()) known.emplace_back(rule->name);
  const auto nearest = units::nearest_word(name, known);
  fmt::print(stderr, "there is no rule \"{}\"{}; \"poise rules\" lists them\n", name,
             nearest ? fmt::format("; did you mean \"{}\"?", *nearest) : "");
  return cannot;
}

void print_not_kept(const Verdict& verdict, bool waived) {
  for (const RuleNotKept& broken : verdict.rules) {
    if (broken.waived.empty() == waived) continue;
    fmt::print("  {}{}\n{}", left(rules::words_of(broken.rule->harm), harm_width), broken.rule->name,
               paragraph(broken.sentence, 4));
    fmt::print("{}", paragraph(waived ? "Waived: " + broken.waived : "→ " + broken.remedy, 4));
  }
}

void print_to_confirm(const Plan& plan) {
  fmt::print("\nFor a person to look at and confirm\n");
  for (const rules::ToConfirm& each : rules::to_confirm(plan)) {
    std::string tags;
    for (int part : each.parts) tags += (tags.empty() ? "" : ", ") + plan.parts[part].tag;
    fmt::print(
        "{}",
        paragraph(fmt::format("☐ {}{}: {}", tags.empty() ? "" : tags + ": ", each.name, each.sentence), 2));
  }
}

int rules_of_job(const std::string& path) {
  const auto read = read_or_complain(path);
  if (!read) return cannot;
  const Job& job = *read;
  Progress progress("proving " + job.title);
  const Verdict verdict = prove(job, {.progress = [&](double share) { return progress.at(share); }}).verdict;
  const std::string title = job.title.empty() ? "This job" : job.title;
  if (verdict.halt) {
    fmt::print("{}: the run ended early, so that rules saw only a part of it: {}\n", title,
               verdict.halt->sentence);
    if (!verdict.halt->by_the_machine()) return cannot;
  }
  const auto waived =
      std::ranges::count_if(verdict.rules, [](const RuleNotKept& each) { return !each.waived.empty(); });
  const auto broken = static_cast<std::ptrdiff_t>(verdict.rules.size()) - waived;
  fmt::print("{}: {} rules looked for, {} not kept, {} waived\n", title, rules::catalogue().size(), broken,
             waived);
  if (broken > 0) fmt::print("\nNot kept\n");
  print_not_kept(verdict, false);
  if (waived > 0) fmt::print("\nWaived\n");
  print_not_kept(verdict, true);
  for (const std::string& caution : verdict.cautions) fmt::print("\n{}", paragraph(caution, 0));
  print_to_confirm(job.plan);
  return broken == 0 && !verdict.halt ? all_held : something_broken;
}

int write_page(const std::string& path) {
  if (!written_or_complain(path, reference::rules_page())) return cannot;
  fmt::print("{} rules written to {}\n", rules::catalogue().size(), path);
  return all_held;
}

int show_rules(const RulesWish& wish) {
  if (!wish.file.empty()) return write_page(wish.file);
  if (!wish.job.empty()) return rules_of_job(wish.job);
  if (!wish.name.empty()) return explain_or_say_nearest(wish.name);
  print_list();
  return all_held;
}

}  // namespace

void add_rules(CLI::App& program, int& exit_code) {
  auto wish = std::make_shared<RulesWish>();
  CLI::App* command =
      program.add_subcommand("rules", "The rules of the trade: all, one explained, or those of a job");
  CLI::Option* name = command->add_option("name", wish->name, "one rule, explained in full");
  CLI::Option* job =
      command
          ->add_option("--job", wish->job, "a job: what it does not keep, and what a person has to confirm")
          ->type_name(a_job);
  command->add_option("--write", wish->file, "a file: the whole catalogue as a page")->type_name(a_file);
  job->excludes(name);
  command->footer(
      "With --job it ends with 0 when every rule is kept or waived, 1 when one is not, 2 when the job cannot "
      "be run.");
  command->callback([wish, &exit_code] { exit_code = show_rules(*wish); });
}

}  // namespace poise::cli
