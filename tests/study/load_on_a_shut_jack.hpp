// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string_view>

#ifdef __SANITIZE_ADDRESS__
#define POISE_FEWER 8
#else
#define POISE_FEWER 1
#endif

namespace poise::study {

/// As many machines, or runs of anything, as a test wants; an eighth of them where memory is watched.
constexpr long fewer(long wanted) { return wanted / POISE_FEWER; }

/// A job whose promise is straight in the values that are off: two forces stand on a jack whose port is shut,
/// and its pressure is their sum over its area, whatever the oil is like. All data invented.
inline constexpr std::string_view load_on_a_shut_jack = R"(
title = "Load on a shut jack"
plugged = ["C1.A"]

[oil]
temperature_range = ["20 degC", "60 degC"]

[parts.C1]
kind = "single_acting_cylinder"
bore = "80 mm"
bore_tolerance = "0 %"
stroke = "200 mm"
start_position = "100 mm"
friction = "0 N"
seal_friction = "0 %"
damping = "40000 N.s/m"
rated_pressure = "250 bar"

[parts.F1]
kind = "force"
force = "50 kN"
force_tolerance = "10 %"

[parts.F2]
kind = "force"
force = "20 kN"
force_tolerance = ["-2 kN", "+4 kN"]

[[lines]]
from = "C1.rod"
to = ["F1.rod", "F2.rod"]

[[steps]]
name = "hold"
lasts = "0.2 s"

[[require]]
name = "pressure under the load"
never_above = "C1.A.pressure"
limit = "150 bar"
)";

}  // namespace poise::study
