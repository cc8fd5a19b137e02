// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/chapters.hpp"

namespace poise::rules {

std::span<const TradeRule> clamping_rules() { return {}; }

}  // namespace poise::rules
