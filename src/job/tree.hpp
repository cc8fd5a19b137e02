// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <variant>

#include "job/edit.hpp"
#include "job/node.hpp"

namespace poise::job {

using Stop = Way::value_type;

/// What stands at a way of a tree, or null.
const Node* node_at(const Node& tree, std::span<const Stop> way);

/// The value as a tree, without places.
Node node_of(const Written& value);

/// The tree as a value to be written; without sense for dates and times.
Written written_of(const Node& node);

/// Whether two trees mean the same, wherever it stands and in whatever order the keys of its tables do. A
/// table without keys or a list without entries is the same as none.
bool same(const Node& a, const Node& b);

/// "parts.V1.setting", "steps.2.set": a way as complaints show it, places counted from 1.
std::string shown(std::span<const Stop> way);

/// The tree as it must be after the edit, or why there can be no such edit.
std::variant<Node, std::string> changed(Node tree, const Edit& edit);

}  // namespace poise::job
