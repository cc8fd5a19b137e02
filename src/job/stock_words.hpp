// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "parts/kind.hpp"

namespace poise::job {

/// What a column, or a key of an item, says of a kind's parameter.
struct StockColumn {
  enum class What { value, from, to, tolerance };
  int parameter = 0;
  What what = What::value;
};

/// The parameter that a column speaks of: by its name, by NAME_from and NAME_to where it is a setting, or by
/// NAME_tolerance.
/// None where this kind has no such column.
std::optional<StockColumn> column_of(const Kind& kind, std::string_view name);

/// All that items of these kinds may state, in the order of their tables: model, kind, cost, note first; but
/// for tolerances.
std::vector<std::string> known_columns(std::span<const Kind* const> kinds);
/// The tolerances that they may state.
std::vector<std::string> tolerance_columns(std::span<const Kind* const> kinds);

/// Whether a name stands in round brackets: a column or key for people that is not read.
bool is_left_alone(std::string_view name);

}  // namespace poise::job
