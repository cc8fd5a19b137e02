// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <ostream>

#include "trace/trace.hpp"
#include "units/units.hpp"

namespace poise {

/// Writes a trace as comma-separated values (RFC 4180, lines ended by \n): a header "time [s],C1.A.pressure
/// [bar],..." and one line per moment, in the units of this world, nine significant digits with a decimal
/// point. A value that is not finite is an empty field.
void write_csv(std::ostream& out, const Trace& trace, const units::World& world);

}  // namespace poise
