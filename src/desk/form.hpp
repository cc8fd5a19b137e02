// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>

#include "desk/json.hpp"
#include "job/edit.hpp"
#include "job/node.hpp"
#include "job/stock.hpp"
#include "units/units.hpp"

namespace poise::desk {

/// One field for each line of a datasheet: where it stands in the tree, what is typed there, the number and
/// unit of it, the range in that unit, and what the value is in `world` where it is typed in another unit.
/// `section` is the table of the job that holds the values, or null; `item` what the stock has of the part,
/// or null: what it states counts before the defaults.
Json form(std::span<const Parameter> parameters, const job::Node* section, const job::Way& at,
          const units::World& world, const StockItem* item = nullptr);

}  // namespace poise::desk
