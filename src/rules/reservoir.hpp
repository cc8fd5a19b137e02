// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <vector>

#include "rules/sight.hpp"

namespace poise::rules {

/// The one reservoir of a job; several share the oil in a way that cannot be told beforehand.
inline std::optional<int> only_reservoir(const Sight& sight) {
  const std::vector<int> all = sight.all(Role::reservoir);
  return all.size() == 1 ? std::optional(all.front()) : std::nullopt;
}

}  // namespace poise::rules
