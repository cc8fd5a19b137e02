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
/// How far a pressure or a speed is past all that parts of this trade withstand, as a share of the bound;
/// negative while all are within. The equations have observed `y`. An infinite burst pressure leaves speeds
/// alone to be looked at: a pump that runs from the first moment is shut in until its relief valve has
/// opened.
double past_all_bounds(Equations& equations, const double* y, double burst_pressure);
/// A pressure or a speed has passed all bounds: when, and which volume or rod it is.
Halt bounds_passed_at(const Integrator& integrator, Equations& equations, double burst_pressure);

}  // namespace poise::solve
