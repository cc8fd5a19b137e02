// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/likewise.hpp"

namespace poise::rules {

std::string tags(const Sight& sight, const std::vector<int>& parts) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) text += i + 1 == parts.size() ? " and " : ", ";
    text += sight.tag(parts[i]);
  }
  return text;
}

std::string likewise(const Sight& sight, const std::vector<int>& others) {
  return others.empty() ? std::string() : "; likewise " + tags(sight, others);
}

}  // namespace poise::rules
