// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "compose/work.hpp"

namespace poise::compose {

/// The line of a hose or tube becomes one that joins its ports directly; in the sheet too, and the nets are
/// made anew.
void direct(Work& work, const Placed& conduit);

}  // namespace poise::compose
