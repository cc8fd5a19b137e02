// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <vector>

#include "study/spread_answer.hpp"

namespace poise::study {

/// A spread as JSON, in the job's units (docs/workbench.md has its fields). `nearest` as for `show`.
nlohmann::json to_json(const SpreadAnswer& answer, const std::vector<std::optional<Nearest>>& nearest,
                       const Spread& spread);

/// The nearest machine that breaks a promise, to be kept and read back to the last digit.
nlohmann::json to_json(const Nearest& nearest);
std::optional<Nearest> nearest_of(const nlohmann::json& json);

}  // namespace poise::study
