// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/rules_not_kept.hpp"

#include <fmt/format.h>

#include "papers/html.hpp"

namespace poise::papers {
namespace {

std::string moment_of(const RuleNotKept& rule, const units::World& world) {
  const std::string time = rule.time ? units::show(*rule.time, Quantity::time, world) : "";
  // Most sentences say it themselves; the blank tells 2.50 s from the end of 12.50 s.
  if (time.empty() || rule.sentence.find(" " + time) != std::string::npos) return "";
  return " At " + time + (rule.step.empty() ? "." : " in " + rule.step + ".");
}

std::string entry_of(const RuleNotKept& rule, const units::World& world) {
  const std::string head = fmt::format("{} ({})", rule.rule->name, rules::words_of(rule.rule->harm));
  std::string text = html::element("strong", html::text(head)) + html::text(": " + rule.sentence + ".");
  text += html::text(moment_of(rule, world));
  if (rule.waived.empty()) return html::element("li", text + html::text(" To do: " + rule.remedy + "."));
  return html::element("li", text + html::text(" Waived, because: " + rule.waived));
}

}  // namespace

std::string rules_not_kept(const Subject& subject, Waived which) {
  std::string list;
  for (const RuleNotKept& rule : subject.verdict.rules) {
    if (rule.waived.empty() == (which == Waived::no)) list += entry_of(rule, subject.job.world);
  }
  if (list.empty()) return html::paragraph("None.");
  return html::element("ul", list);
}

}  // namespace poise::papers
