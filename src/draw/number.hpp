// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

namespace poise::draw {

/// A number for a drawing's file: so many decimals at most, no trailing zeros, no negative zero.
std::string plain_number(double value, int decimals);

}  // namespace poise::draw
