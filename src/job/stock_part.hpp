// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "job/draft.hpp"

namespace poise::job {

/// What a part says of its model.
struct FromStock {
  std::string model{};              ///< as written; empty: nothing, or "find"
  const StockItem* item = nullptr;  ///< whose values it takes
  bool sought = false;              ///< the model is to be found, `item` stands in
  bool unsure =
      false;  ///< the model is not known: what the part lacks may well be in it, and is not asked for
  Place place{};

  /// Whether the item states a parameter.
  bool gives(std::string_view parameter) const { return item && item->given.given(parameter); }
};

/// Reads `model` of a part: an item of its kind in the job's stock, or "find". Complains about one that is
/// not there, with the nearest that is.
FromStock read_model(Draft& draft, Section& section, const std::string& tag, const Kind& kind);

/// Complains where a part and its model state different values, or the part has a setting that its model
/// cannot be brought to. Those of `stand_ins` were not read.
void compare_with_model(Draft& draft, Section& section, const std::string& tag, const FromStock& from,
                        const Values& values, std::span<const std::string_view> stand_ins);

/// Complains where a setting lies outside the range of the part's model; does nothing where there is none.
void check_range(Draft& draft, const StockItem* item, const std::string& tag, int parameter, double value,
                 Place place);

}  // namespace poise::job
