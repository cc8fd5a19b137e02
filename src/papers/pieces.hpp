// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "draw/sheet.hpp"

namespace poise::papers {

/// A drawing cut into pieces of at most this size, mm, row by row from the upper left. Neighbours share a
/// strip so wide that every text stands whole in one of them; what would be torn is left out of the other.
std::vector<draw::Sheet> pieces_of(const draw::Sheet& sheet, double width, double height);

}  // namespace poise::papers
