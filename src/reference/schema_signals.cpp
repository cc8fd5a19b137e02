// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "reference/schema_signals.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "parts/kind.hpp"
#include "units/pattern.hpp"

namespace poise::reference {
namespace {

constexpr std::string_view blanks = "[ \\t\\r\\n]*";

using Quantities = std::set<Quantity>;
using Words = std::vector<std::string>;

void add(Words& words, std::string_view word) {
  if (std::ranges::find(words, word) == words.end()) words.emplace_back(word);
}

std::string one_of(const Words& words) { return fmt::format("(?:{})", fmt::join(words, "|")); }

/// The last words of signals by what they can measure, in the order of the kinds.
const std::vector<std::pair<Quantities, Words>>& signal_words() {
  static const auto groups = [] {
    Words words;
    std::map<std::string, Quantities> measures;
    const auto note = [&](std::string_view word, Quantity quantity) {
      add(words, word);
      measures[std::string(word)].insert(quantity);
    };
    for (const Kind& kind : all_kinds()) {
      for (const Port& port : kind.ports) {
        const bool oil = port.domain == Domain::oil;
        note(oil ? "pressure" : "position", oil          ? Quantity::pressure
                                            : port.turns ? Quantity::angle
                                                         : Quantity::length);
        note(oil ? "flow" : "speed", oil          ? Quantity::flow
                                     : port.turns ? Quantity::rate_of_turning
                                                  : Quantity::speed);
      }
      for (const State& state : kind.states) note(state.name, state.quantity);
      for (const Mode& mode : kind.modes) note(mode.name, Quantity::none);
      for (const Output& output : kind.outputs) note(output.name, output.quantity);
    }
    std::vector<std::pair<Quantities, Words>> all;
    for (const std::string& word : words) {
      const auto group = std::ranges::find(all, measures[word], &std::pair<Quantities, Words>::first);
      if (group == all.end()) {
        all.push_back({measures[word], {word}});
      } else {
        group->second.push_back(word);
      }
    }
    return all;
  }();
  return groups;
}

Words all_signal_words() {
  Words words;
  for (const auto& [quantities, group] : signal_words())
    words.insert(words.end(), group.begin(), group.end());
  return words;
}

/// A signal with one of these last words.
std::string signal_of(const Words& words) { return tag_pattern() + "\\." + one_of(words); }

std::string compared(const Words& words) {
  return fmt::format("{0}{1}{0}[<>]=?{2}", blanks, signal_of(words), units::ends_pattern());
}

}  // namespace

Json port_schema() {
  Words names;
  for (const Kind& kind : all_kinds())
    for (const Port& port : kind.ports) add(names, port.name);
  return text_like(tag_pattern() + "\\." + one_of(names));
}

Json signal_schema() { return text_like(signal_of(all_signal_words())); }

Json condition_schema() {
  const std::string end = units::ends_pattern();
  Json all =
      Json::array({text_like(fmt::format("{0}{1}[ \\t\\r\\n]* (?:on|off){0}", blanks, tag_pattern()))});
  for (const auto& [quantities, words] : signal_words()) {
    Words values;
    for (const Quantity quantity : quantities) values.push_back(units::usual_value_pattern(quantity));
    all.push_back(text_like(compared(words) + one_of(values) + end));
  }
  const std::string number = units::number_pattern() + units::blanks_pattern();
  Json unusual = text_like(compared(all_signal_words()) + number + units::compound_unit_pattern() + end);
  unusual["not"] = {{"pattern", "[<>]=?" + end + number + units::usual_compounds_pattern() + end + "$"}};
  all.push_back(unusual);
  return any_of(all);
}

void demand_units(Json& requirement, std::string_view key, bool several,
                  const std::vector<std::string_view>& limits) {
  for (const auto& [quantities, words] : signal_words()) {
    const Json one{{"pattern", "\\." + one_of(words) + "$"}};
    const Json asked = several ? Json{{"items", one}} : one;
    Json then;
    for (const std::string_view limit : limits) then[std::string(limit)] = value_of(quantities);
    requirement["allOf"].push_back(
        {{"if", {{"properties", {{key, asked}}}, {"required", {key}}}}, {"then", {{"properties", then}}}});
  }
}

}  // namespace poise::reference
