// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/stock_words.hpp"

#include <set>

#include "job/tolerance.hpp"

namespace poise::job {
namespace {

constexpr std::string_view from = "_from", to = "_to";

}  // namespace

std::optional<StockColumn> column_of(const Kind& kind, std::string_view name) {
  if (const auto value = find_parameter(kind.parameters, name)) return StockColumn{*value};
  if (const auto value = toleranced_by(name, kind.parameters))
    return StockColumn{*value, StockColumn::What::tolerance};
  for (const auto& [ending, what] : {std::pair{from, StockColumn::What::from}, {to, StockColumn::What::to}}) {
    if (!name.ends_with(ending)) continue;
    const auto setting = find_parameter(kind.parameters, name.substr(0, name.size() - ending.size()));
    if (setting && kind.parameters[static_cast<std::size_t>(*setting)].adjusted)
      return StockColumn{*setting, what};
  }
  return std::nullopt;
}

std::vector<std::string> known_columns(std::span<const Kind* const> kinds) {
  std::vector<std::string> known{"model", "kind", "cost", "note"};
  std::set<std::string> seen(known.begin(), known.end());
  const auto add = [&](const std::string& name) {
    if (seen.insert(name).second) known.push_back(name);
  };
  for (const Kind* kind : kinds) {
    for (const Parameter& parameter : kind->parameters) {
      const std::string name(parameter.name);
      add(name);
      if (!parameter.adjusted) continue;
      add(name + std::string(from));
      add(name + std::string(to));
    }
  }
  return known;
}

std::vector<std::string> tolerance_columns(std::span<const Kind* const> kinds) {
  std::set<std::string> all;
  for (const Kind* kind : kinds) {
    for (const Parameter& parameter : kind->parameters) {
      if (may_be_off(parameter)) all.insert(tolerance_key(parameter.name));
    }
  }
  return {all.begin(), all.end()};
}

bool is_left_alone(std::string_view name) {
  return name.size() > 1 && name.starts_with('(') && name.ends_with(')');
}

}  // namespace poise::job
