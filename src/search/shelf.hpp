// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"

namespace poise::search {

/// An item that a part cannot be, and why: "rated flow 8.00 L/min, needs 14.0 L/min".
struct Rejected {
  const StockItem* item;
  std::string why;
};

/// What of the stock a part may be.
struct Shelf {
  std::vector<const StockItem*> fits;  ///< the cheapest first
  std::vector<Rejected> rejected;
};

/// Sorts the items of a part's kind by closed forms, before any run: an item is rejected if it contradicts
/// what the job states, lacks what the part needs, cannot be brought to a setting that stands in the job, or
/// has a size outside its closed-form range (`range_of`).
Shelf shelf_of(const Job& job, const Sought& sought);

/// What a part saw in a run: the greatest flow through one of its ports that lasted a tenth of a second in
/// all, m3/s, and the highest pressure, Pa.
struct Seen {
  double flow = 0.0, pressure = 0.0;
};
/// Why an item is too weak for that; empty where it is not. A rated flow counts for what oil passes through,
/// not for sources and actuators.
std::string too_weak(const StockItem& item, const Seen& seen, const units::World& world);

/// Place of the item to begin with: rated for the pressure and flow of the circuit's sources where some are,
/// and of those the nearest to the closed-form guesses.
std::size_t likeliest(const Job& job, const Sought& sought, const std::vector<const StockItem*>& items);

}  // namespace poise::search
