// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/table.hpp"

#include <cmath>
#include <stdexcept>

namespace poise {

std::optional<int> find_parameter(std::span<const Parameter> table, std::string_view name) {
  for (int i = 0; i < static_cast<int>(table.size()); ++i) {
    if (table[i].name == name) return i;
  }
  return std::nullopt;
}

double Values::operator[](std::string_view name) const {
  const auto index = find_parameter(table_, name);
  if (!index) throw std::logic_error("no parameter '" + std::string(name) + "' in this part's table");
  return numbers_[*index];
}

bool Values::given(std::string_view name) const {
  const auto index = find_parameter(table_, name);
  return index && !std::isnan(numbers_[*index]);
}

}  // namespace poise
