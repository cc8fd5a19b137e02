// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>

#include "job/node.hpp"
#include "job/stock.hpp"

namespace poise::job {

/// Reads one item from its table; none where its name or kind is not understood. Complains about what is
/// wrong with it.
std::optional<StockItem> read_item(const Node& table, const units::World& world, Remarks& remarks);

}  // namespace poise::job
