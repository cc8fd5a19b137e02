// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "compose/work.hpp"

namespace poise::compose {

/// Steps and controls no longer set the part; a control that is left with nothing to do goes.
void remove_settings(Work& work, const std::string& tag);

}  // namespace poise::compose
