// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace poise::desk {

/// Objects keep the order in which they are filled: a table of a job reads as it was written.
using Json = nlohmann::ordered_json;

/// The text at a key of a wish; empty where there is none.
inline std::string text_of(const Json& wish, const char* key) {
  const auto found = wish.find(key);
  return found != wish.end() && found->is_string() ? found->get<std::string>() : std::string();
}

/// The texts of a list there.
inline std::vector<std::string> texts_of(const Json& wish, const char* key) {
  std::vector<std::string> texts;
  const auto found = wish.find(key);
  if (found == wish.end() || !found->is_array()) return texts;
  for (const Json& each : *found) {
    if (each.is_string()) texts.push_back(each.get<std::string>());
  }
  return texts;
}

}  // namespace poise::desk
