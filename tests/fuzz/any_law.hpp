// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/kind.hpp"

namespace poise {

/// Holds that a part with these values, whatever list they come from, gives numbers: its laws and their
/// slopes at rest, pressed from one side and from the other, its space, its curves. Values that do not go
/// together are left alone.
void hold_law(const Kind& kind, const Values& values);

}  // namespace poise
