// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A job with a supply and two branches, for tests of what is written on a drawing. Invented data.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <variant>

#include "job/job.hpp"

namespace poise::drawing {

inline constexpr std::string_view parts = R"(title = "Axle press with a lift"
[parts.T1]
kind = "reservoir"
usable_oil = "20 L"
[parts.P1]
kind = "pump"
displacement = "7.8 cm3/rev"
motor_power = "4 kW"
rated_pressure = "250 bar"
[parts.R1]
kind = "relief"
setting = "210 bar"
setting_flow = "10 L/min"
rated_flow = "20 L/min"
[parts.V2]
kind = "directional_4_3"
centre = "tandem"
rated_flow = "20 L/min"
[parts.C1]
kind = "double_acting_cylinder"
note = "presses the axle"
bore = "40 mm"
rod = "25 mm"
stroke = "100 mm"
[parts.V3]
kind = "directional_4_3"
centre = "float"
rated_flow = "20 L/min"
[parts.V4]
kind = "pilot_operated_check"
ratio = 4
rated_flow = "20 L/min"
[parts.C2]
kind = "double_acting_cylinder"
bore = "50 mm"
rod = "28 mm"
stroke = "200 mm"
[parts.M2]
kind = "mass"
mass = "800 kg"
[parts.F1]
kind = "filter"
rated_flow = "30 L/min"
)";

inline constexpr std::string_view joints = R"([[lines]]
from = "T1.T"
to = ["P1.S", "R1.T", "F1.B"]
[[lines]]
from = "V2.T"
to = ["V3.T", "F1.A"]
[[lines]]
from = "P1.P"
to = ["R1.P", "V2.P", "V3.P"]
[[lines]]
from = "V2.A"
to = "C1.A"
tag = "H1"
hose = { bore = "8 mm", length = "2 m" }
[[lines]]
from = "V2.B"
to = "C1.B"
tube = { bore = "10 mm", length = "1.2 m" }
[[lines]]
from = "V3.A"
to = "V4.A"
[[lines]]
from = "V4.B"
to = "C2.A"
[[lines]]
from = "V3.B"
to = ["C2.B", "V4.X"]
[[lines]]
from = "C2.rod"
to = "M2.rod"
)";

inline constexpr std::string_view steps = R"([[steps]]
name = "start"
set = { P1 = "on" }
lasts = "1 s"
)";

inline std::string job_text() { return std::string(parts) + std::string(joints) + std::string(steps); }

/// The text with one piece exchanged; the piece must be in it.
inline std::string with(std::string text, std::string_view piece, std::string_view instead) {
  const std::size_t at = text.find(piece);
  EXPECT_NE(at, std::string::npos) << piece;
  return at == std::string::npos ? text : text.replace(at, piece.size(), instead);
}

/// The job of a text that must have no fault.
inline Job read(const std::string& text) {
  auto result = read_job(text, "job.toml");
  if (const auto* complaints = std::get_if<Complaints>(&result)) {
    ADD_FAILURE() << complaints->text(text);
    return {};
  }
  return std::get<Job>(std::move(result));
}

inline int part(const Job& job, std::string_view tag) {
  const auto found = std::ranges::find(job.plan.parts, tag, &PlannedPart::tag);
  EXPECT_NE(found, job.plan.parts.end()) << tag;
  return static_cast<int>(found - job.plan.parts.begin());
}

}  // namespace poise::drawing
