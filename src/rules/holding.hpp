// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>

#include "rules/rule.hpp"

namespace poise::rules {

/// The pieces of the chapter on holding and lowering loads, one file each; `holding_rules` has them all.
std::span<const TradeRule> lowering_rules();        ///< what lets loads down
std::span<const TradeRule> pilot_check_rules();     ///< loads on pilot-operated checks
std::span<const TradeRule> counterbalance_rules();  ///< loads on counterbalance valves

}  // namespace poise::rules
