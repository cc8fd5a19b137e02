// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>

namespace poise::reference {

/// Every rule of the trade that is computed, chapter by chapter, as Markdown.
std::string rules_page();

/// Where a rule stands on that page: "#relief-above-the-work".
std::string anchor_of(std::string_view rule);

}  // namespace poise::reference
