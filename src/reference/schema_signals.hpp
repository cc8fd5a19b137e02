// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "reference/schema_values.hpp"

namespace poise::reference {

/// "P1.P": a tag and a port that some kind has.
Json port_schema();
/// "C1.A.pressure": a tag and a signal that some kind has.
Json signal_schema();
/// "C1.A.pressure > 180 bar" with a unit that the signal can have, or "S1 on".
Json condition_schema();

/// Adds to a requirement that asks for the signal behind `key`: what stands behind each of `limits` has a
/// unit of that signal.
void demand_units(Json& requirement, std::string_view key, bool several,
                  const std::vector<std::string_view>& limits);

}  // namespace poise::reference
