// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/all.hpp"

#include <algorithm>
#include <utility>

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

const std::vector<Chapter>& chapters() {
  static const std::vector<Chapter> all = [] {
    const std::vector<std::pair<std::string_view, std::vector<std::span<const TradeRule>>>> written{
        {"The circuit as a whole", {circuit_rules()}},
        {"Relief and unloading valves, pressure switches",
         {relief_rules(), setting_rules(), trapped_rules()}},
        {"Sequence and reducing valves", {sequence_rules(), sequence_flow_rules(), reducing_rules()}},
        {"Holding and lowering loads", {holding_rules()}},
        {"Speed, flow, ratio of areas",
         {flow_rules(), flow_load_rules(), flow_ratio_rules(), flow_speed_rules(), flow_divider_rules()}},
        {"Cylinders and lifting", {cylinder_rules(), lifting_rules(), cylinder_oil_rules()}},
        {"Holding workpieces", {clamping_rules(), clamping_support_rules(), clamping_fixture_rules()}},
        {"Presses and big cylinders", {press_rules()}},
        {"Pumps, motors, reservoirs", {pump_rules(), pump_work_rules(), reservoir_rules()}},
        {"Lines, hoses, couplings", {line_rules(), line_hose_rules()}},
        {"Oil, filters, heat", {oil_rules()}},
        {"Gauges and test points", {gauge_rules()}},
        {"Accumulators and stored energy", {energy_rules(), energy_left_rules()}},
    };
    std::vector<Chapter> chapters;
    for (const auto& [title, pieces] : written) {
      Chapter chapter{title, {}};
      for (const auto& piece : pieces) {
        for (const TradeRule& rule : piece) chapter.rules.push_back(&rule);
      }
      chapters.push_back(std::move(chapter));
    }
    return chapters;
  }();
  return all;
}

const std::vector<const TradeRule*>& catalogue() {
  static const std::vector<const TradeRule*> all = [] {
    std::vector<const TradeRule*> rules;
    for (const Chapter& chapter : chapters())
      rules.insert(rules.end(), chapter.rules.begin(), chapter.rules.end());
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
