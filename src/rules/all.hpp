// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "rules/rule.hpp"
#include "rules/sight.hpp"

namespace poise::rules {

/// One place where a rule is not kept, with the rule.
struct Breach {
  const TradeRule* rule = nullptr;
  Found found;
};

/// Rules that belong together, under a title.
struct Chapter {
  std::string_view title;
  std::vector<const TradeRule*> rules;
};

/// Every rule that is computed, by chapter.
const std::vector<Chapter>& chapters();
/// The same one behind the other.
const std::vector<const TradeRule*>& catalogue();
/// The rule by name, or null.
const TradeRule* find_rule(std::string_view name);
/// The rules that concern a kind of part.
std::vector<const TradeRule*> concerning(std::string_view kind);

/// All rules of the catalogue that a job does not keep: what can hurt someone first, then in the catalogue's
/// order.
std::vector<Breach> breaches(const Sight& sight);

}  // namespace poise::rules
