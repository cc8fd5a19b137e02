// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string_view>

#include "compose/change.hpp"
#include "desk/json.hpp"

namespace poise::desk {

/// Carries out a change of the circuit as the page asks for it: {"what": "branch", "port": "P1.P", "kind":
/// "relief"} and the like (docs/workbench.md). A wish that is not understood is a complaint.
compose::Changed change(std::string_view text, const Json& wish);

}  // namespace poise::desk
