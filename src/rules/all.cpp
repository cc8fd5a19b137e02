// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/all.hpp"

#include <algorithm>

#include "rules/chapters.hpp"

namespace poise::rules {

std::string_view words_of(Harm harm) {
  switch (harm) {
    case Harm::hurts:
      return "can hurt someone";
    case Harm::damages:
      return "can damage";
    case Harm::works_badly:
      return "works badly";
    case Harm::worth_knowing:
      break;
  }
  return "worth knowing";
}

const std::vector<const TradeRule*>& catalogue() {
  static const std::vector<const TradeRule*> all = [] {
    std::vector<const TradeRule*> rules;
    for (const auto chapter :
         {circuit_rules(), relief_rules(), sequence_rules(), holding_rules(), flow_rules(), flow_load_rules(),
          flow_ratio_rules(), flow_speed_rules(), flow_divider_rules(), cylinder_rules(), clamping_rules(),
          clamping_support_rules(), clamping_fixture_rules(), press_rules(), pump_rules(), line_rules(),
          oil_rules(), gauge_rules(), energy_rules()}) {
      for (const TradeRule& rule : chapter) rules.push_back(&rule);
    }
    return rules;
  }();
  return all;
}

const TradeRule* find_rule(std::string_view name) {
  const auto found = std::ranges::find(catalogue(), name, &TradeRule::name);
  return found == catalogue().end() ? nullptr : *found;
}

std::vector<const TradeRule*> concerning(std::string_view kind) {
  std::vector<const TradeRule*> found;
  std::ranges::copy_if(catalogue(), std::back_inserter(found), [&](const TradeRule* rule) {
    return std::ranges::find(rule->kinds, kind) != rule->kinds.end();
  });
  return found;
}

std::vector<Breach> breaches(const Sight& sight) {
  std::vector<Breach> all;
  for (const TradeRule* rule : catalogue()) {
    Report report;
    rule->look(sight, report);
    for (Found& found : report.found()) all.push_back({rule, std::move(found)});
  }
  std::ranges::stable_sort(all, {}, [](const Breach& breach) { return breach.rule->harm; });
  return all;
}

}  // namespace poise::rules
