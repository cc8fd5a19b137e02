// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string_view>

namespace poise::compose {

/// A TOML file of this room, "starts/single-lift.toml", as it was when this was built; empty where there is
/// none of that name.
std::string_view built_in(std::string_view file);

}  // namespace poise::compose
