// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"

namespace poise::draw {

/// The code of each part after ISO 1219-2:2012 (from memory): letter of the medium, H for oil, number of the
/// circuit, number of the component in it, "H2.3"; before it the number of the system, where the job gives
/// one ("1-H2.3"). A part's own code stands. Loads have none.
///
/// Circuit 1 is the supply: reservoirs, pumps, and what every actuator's oil passes before the first
/// directional valve. The others are the branches behind it, one for each valve or line that the supply
/// feeds, in the order of the job. In a circuit the components count along the oil's way from the pump (the
/// supply's begin with the reservoir and end with the return), those equally far in the order of the job: one
/// that is added at the end of the way leaves the others their codes.
std::vector<std::string> codes_of(const Job& job);

}  // namespace poise::draw
