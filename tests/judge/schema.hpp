// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace poise::schema {

/// Checks a document against a JSON Schema, for the words of it that docs/schema uses; another word is a
/// complaint of its own, so that nothing in a schema goes unchecked. Each complaint starts with the place in
/// the document.
std::vector<std::string> complaints(const nlohmann::json& document, const nlohmann::json& schema);

}  // namespace poise::schema
