// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "desk/json.hpp"

namespace poise::desk {

/// All that the page needs to know of kinds of parts, oil, quantities and starting points; the same for every
/// job.
Json words(const std::string& version);

}  // namespace poise::desk
