// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The paper for the safety file.
#include <fmt/format.h>

#include "judge/outcome.hpp"
#include "judge/wording.hpp"
#include "papers/html.hpp"
#include "papers/paper.hpp"
#include "papers/rules_not_kept.hpp"
#include "papers/studies.hpp"
#include "rules/confirm.hpp"

namespace poise::papers {
namespace {

std::string list_of(const std::vector<std::string>& sentences, std::string_view instead) {
  if (sentences.empty()) return html::paragraph(instead);
  std::string list;
  for (const std::string& sentence : sentences) list += html::entry(sentence);
  return html::element("ul", list);
}

Table confirmed_by_people(const Plan& plan) {
  Table table{
      "to confirm", {{"part", 1.3}, {"what a person confirms", 5.2}, {"source", 1.9}, {"yes, by", 1.2}}, {}};
  for (const rules::ToConfirm& each : rules::to_confirm(plan)) {
    std::vector<std::string> tags;
    for (const int part : each.parts) tags.push_back(plan.parts[part].tag);
    table.rows.push_back({{tags.empty() ? "all" : wording::joined(tags, ", ")},
                          {fmt::format("{}: {}", each.name, each.sentence)},
                          {std::string(each.source)},
                          {}});
  }
  return table;
}

}  // namespace

std::string safety(const Subject& subject) {
  const Verdict& verdict = subject.verdict;
  std::string text = html::element("p", html::text(notice), " class=\"mind\"");
  text += html::heading(3, "How this machine can hurt someone, though all holds") +
          list_of(verdict.people, verdict.halt ? "The run did not get far enough to say."
                                               : "The run showed nothing of the kind; that is no proof.");
  text += html::heading(3, "What is left of risk: rules of the trade not kept") +
          rules_not_kept(subject, Waived::no);
  text += html::heading(3, "Rules that were waived, and why") + rules_not_kept(subject, Waived::yes);
  text += html::heading(3, "Worth a word") + list_of(verdict.cautions, "Nothing.");
  text += faults_studied(subject);
  text += html::heading(3, "What no calculation sees and a person confirms");
  return text + html::table(confirmed_by_people(subject.job.plan), "Nothing.");
}

}  // namespace poise::papers
