// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "job/draft.hpp"
#include "rules/all.hpp"

namespace poise::job {
namespace {

/// Counts the first byte of each letter beyond ASCII; 0xC2 and 0xE2 begin signs such as "·" and "…".
long letters(std::string_view text) {
  return std::ranges::count_if(text,
                               [](unsigned char c) { return std::isalpha(c) || (c >= 0xC3U && c != 0xE2U); });
}

std::vector<std::string> names_of_rules() {
  std::vector<std::string> names;
  for (const rules::TradeRule* rule : rules::catalogue()) names.emplace_back(rule->name);
  return names;
}

void read_waiver(Draft& draft, Section& section) {
  const auto rule = section.text("rule");
  const auto reason = section.text("reason");
  const auto parts = section.texts("part");
  section.refuse_unknown_keys();
  if (!rule && !section.has("rule")) section.complain("needs rule, the name of the rule that is not kept");
  if (!reason && !section.has("reason"))
    section.complain("needs reason, a sentence that says why this may be: verdict and papers repeat it");
  Waiver waiver{.place = section.place()};
  bool fits = rule && reason;
  if (rule && !rules::find_rule(rule->value)) {
    section.complain("rule", fmt::format("there is no rule {}{}; \"poise rules\" lists them",
                                         quote(rule->value), hint(rule->value, names_of_rules())));
    fits = false;
  }
  if (reason && letters(reason->value) < fewest_letters_of_reason) {
    section.complain(
        "reason",
        fmt::format("{} is no reason that anyone could judge later: say in a sentence why this may be",
                    quote(reason->value)));
    fits = false;
  }
  for (const Text& tag : parts) {
    if (draft.parts.contains(tag.value)) {
      waiver.parts.push_back(tag.value);
    } else if (!draft.left_out.contains(tag.value)) {
      section.complain("part", no_such_part(draft, tag.value));
      fits = false;
    }
  }
  if (!fits) return;
  waiver.rule = rule->value;
  waiver.reason = reason->value;
  draft.job.waivers.push_back(std::move(waiver));
}

}  // namespace

void read_waivers(Draft& draft, Section& top) {
  for (const Node* table : top.tables("waive")) {
    Section section(*table, "the waiver", draft.remarks, keys::of_waiver());
    read_waiver(draft, section);
  }
}

}  // namespace poise::job
