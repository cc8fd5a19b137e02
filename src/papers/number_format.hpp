// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "papers/table.hpp"

namespace poise::papers {

/// The format by which a spreadsheet shows a cell's number as paper does, with as many decimals and the words
/// about it: `0.0 "cm³"` for "12.0 cm³", `"± "0.00 "%"` for "± 3.00 %". It cannot round before the point:
/// what paper tells as 1020 stands there as 1015.
std::string number_format(const Cell& cell);

}  // namespace poise::papers
