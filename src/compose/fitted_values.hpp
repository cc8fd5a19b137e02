// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "compose/nets.hpp"
#include "compose/sheet.hpp"

namespace poise::compose {

/// The usual values of a kind, as src/compose/usual has them in one of the two worlds of units.
const job::Node& usual_values(const Kind& kind, bool us);

/// What a new part is written with, `kind` first: usual values of its kind (src/compose/usual), and where the
/// circuit says more, those that fit it: ratings as of the parts that it is joined to, a relief valve 10 %
/// above the main one, a gauge with room above it. `beside` are the ports that it will be joined
/// to.
job::Written::Table values_for(const Sheet& sheet, const Nets& nets, const Kind& kind,
                               const std::vector<std::string>& beside);

}  // namespace poise::compose
