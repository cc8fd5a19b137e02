// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Small machines of a workshop on which two or more faults look alike. All data invented.
#pragma once

#include <string>

namespace poise::look_alike_jobs {

/// A pump with its relief valve and a lever valve; `work` is what hangs behind V2.A and V2.B, `tank` what the
/// oil passes on its way back from V2.T, `steps` the cycle.
inline std::string machine(const std::string& work, const std::string& steps, const std::string& tank = R"(
[[lines]]
from = "V2.T"
to = "T1.T"
)") {
  return R"(
title = "Workshop press"
[parts.T1]
kind = "reservoir"
usable_oil = "20 L"
[parts.P1]
kind = "pump"
displacement = "4 cm3/rev"
speed = "1450 rpm"
rated_pressure = "250 bar"
[parts.V1]
kind = "relief"
setting = "160 bar"
setting_flow = "5 L/min"
rated_flow = "12 L/min"
rated_pressure = "350 bar"
[parts.V2]
kind = "directional_4_3"
centre = "closed"
overlap = "-30 %"
rated_flow = "20 L/min"
rated_pressure = "315 bar"
[parts.G1]
kind = "gauge"
range = "250 bar"
[[lines]]
from = "T1.T"
to = ["P1.S", "V1.T"]
[[lines]]
from = "P1.P"
to = ["V1.P", "V2.P", "G1.M"]
)" + tank +
         work + steps;
}

/// A double-acting cylinder that presses a bush; between valve and cap side `before_cap`.
inline std::string press(const std::string& before_cap, const std::string& pilots = "") {
  return R"(
[parts.C1]
kind = "double_acting_cylinder"
bore = "50 mm"
rod = "28 mm"
stroke = "200 mm"
rated_pressure = "250 bar"
[parts.X1]
kind = "spring"
free_travel = "100 mm"
rate = "40 kN/mm"
damping = "50000 N s/m"
[[lines]]
from = "C1.rod"
to = "X1.rod"
[[lines]]
from = "V2.B"
to = ["C1.B")" +
         pilots + R"(]
)" + before_cap;
}

inline const std::string press_and_back = R"(
[[steps]]
name = "press"
set = { P1 = "on", V2 = "a" }
lasts = "6 s"
[[steps]]
name = "back"
set = { V2 = "b" }
lasts = "4 s"
)";

inline const std::string press_hold_back = R"(
[[steps]]
name = "press"
set = { P1 = "on", V2 = "a" }
lasts = "6 s"
[[steps]]
name = "hold"
set = { V2 = "centre", P1 = "off" }
lasts = "60 s"
[[steps]]
name = "back"
set = { V2 = "b", P1 = "on" }
lasts = "4 s"
)";

}  // namespace poise::look_alike_jobs
