// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <string_view>

#include "parts/table.hpp"

namespace poise::reference {

/// A schema, or a part of one; keys keep their order.
using Json = nlohmann::ordered_json;

/// A reference to one of the schema's own definitions.
Json defined(std::string_view name);
/// The same schema with a description that editors show; in front, for those who read the file.
Json described(std::string_view description, const Json& schema);
/// One of several; the schema itself where it is alone.
Json any_of(const Json& alternatives);
/// One schema for values of a type ("array", "object") and one for all others: what is wrong in the value is
/// then told at its place.
Json by_type(std::string_view type, const Json& of_type, const Json& others);
/// A text that as a whole has this pattern.
Json text_like(const std::string& pattern);

/// What tags look like, without anchors.
std::string tag_pattern();

/// A value of one of these quantities, wherever it stands.
Json value_of(const std::set<Quantity>& quantities);

/// What may stand behind the name of a parameter: its value, in words or with its unit, or its curve; "find"
/// where `may_be_open`.
Json property_of(const Parameter& parameter, bool may_be_open);
/// What may stand behind NAME_tolerance.
Json tolerance_of(const Parameter& parameter);

/// The definitions that all of these refer to.
void define_values(Json& definitions);

}  // namespace poise::reference
