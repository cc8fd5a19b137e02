// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "reference/rules_page.hpp"

#include <fmt/format.h>

#include <cctype>

#include "reference/wording.hpp"
#include "rules/all.hpp"

namespace poise::reference {
namespace {

std::string concerned(const rules::TradeRule& rule) {
  if (rule.kinds.empty()) return "the circuit";
  std::string text;
  for (std::string_view kind : rule.kinds)
    text += fmt::format("{}[{}](parts/{}.md)", text.empty() ? "" : ", ", kind, kind);
  return text;
}

}  // namespace

std::string anchor_of(std::string_view rule) {
  std::string anchor = "#";
  for (const unsigned char c : rule) {
    if (std::isalnum(c) || c == '-')
      anchor += static_cast<char>(std::tolower(c));
    else if (c == ' ')
      anchor += '-';
  }
  return anchor;
}

std::string rules_page() {
  std::string text = fmt::format(
      "<!-- Written by poise rules --write docs/rules.md. -->\n# Rules of the trade\n\nWhat an experienced "
      "engineer would say "
      "at the drawing board. `poise prove` looks for each of these {} rules in the job and says, with the "
      "job's numbers, which "
      "are not kept and what to do; `poise rules NAME` explains one. A rule may be waived in the job, with a "
      "reason "
      "(docs/job-file.md). Thresholds are usual ones, not law: local codes and a licensed person decide.\n",
      rules::catalogue().size());
  for (const rules::Chapter& chapter : rules::chapters()) {
    if (chapter.rules.empty()) continue;
    text += fmt::format("\n## {}\n", chapter.title);
    for (const rules::TradeRule* rule : chapter.rules) {
      text +=
          fmt::format("\n### {}\n\n*{}.* {} {}\n\nWhat to do: {}\n\nConcerns: {}. Source: {}.\n", rule->name,
                      rules::words_of(rule->harm), running(rule->holds), running(rule->otherwise),
                      running(rule->remedy), concerned(*rule), running(rule->source));
    }
  }
  return text;
}

}  // namespace poise::reference
