// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string_view>
#include <variant>

#include "desk/json.hpp"
#include "job/edit.hpp"
#include "job/node.hpp"

namespace poise::desk {

/// A job's tree for the page: values as they are typed.
Json to_json(const job::Node& node);
Json to_json(const job::Way& way);

/// What stands at a key of a table, or null.
const job::Node* field(const job::Node& table, std::string_view key);

/// Changes as the page sends them: {"do": "set", "at": ["parts", "V3", "setting"], "value": "210 bar"}, and
/// likewise "remove", "add" and "move" with "place". None where this is something else.
std::optional<std::vector<job::Edit>> read_edits(const Json& list);

}  // namespace poise::desk
