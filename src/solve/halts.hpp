// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "solve/equations.hpp"
#include "solve/integrator.hpp"
#include "trace/trace.hpp"

namespace poise::solve {

/// The equations cannot be followed further: where, and which unknown is to blame.
Halt stuck_at(const Integrator& integrator, const Equations& equations);
/// A volume has no room for oil where everything starts.
Halt no_room_at(double time, const Circuit& circuit);
/// The run has taken as many steps as it may: when, and what changes fastest there.
Halt given_up_at(const Integrator& integrator, const Equations& equations);
/// A pressure has passed all bounds: when, and which volume it is.
Halt burst_at(const Integrator& integrator, Equations& equations);

}  // namespace poise::solve
