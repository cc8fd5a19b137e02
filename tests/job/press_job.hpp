// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <string_view>
#include <variant>

#include "job/job.hpp"

namespace poise::reading {

/// A whole press job, without a fault, in which tests exchange single lines.
inline constexpr std::string_view good = R"(title = "Bush press"
plugged = ["V2.B"]
[oil]
grade = "ISO VG 32"
[parts.T1]
kind = "reservoir"
usable_oil = "8 L"
[parts.P1]
kind = "pump"
flow = "2.5 L/min"
rated_pressure = "250 bar"
[parts.V1]
kind = "relief"
setting = "180 bar"
rated_flow = "10 L/min"
[parts.V2]
kind = "directional_4_3"
centre = "tandem"
rated_flow = "20 L/min"
[parts.C1]
kind = "single_acting_cylinder"
bore = "40 mm"
stroke = "100 mm"
[parts.F1]
kind = "force"
force = "0 N"
[[lines]]
from = "T1.T"
to = ["P1.S", "V1.T", "V2.T"]
[[lines]]
from = "P1.P"
to = ["V1.P", "V2.P"]
[[lines]]
from = "V2.A"
to = "C1.A"
tag = "H1"
hose = { bore = "8 mm", length = "2 m" }
[[lines]]
from = "C1.rod"
to = "F1.rod"
[[steps]]
name = "press"
set = { P1 = "on", V2 = "a", F1 = "3 kN" }
until = "C1.A.pressure > 150 bar"
at_most = "6 s"
[[steps]]
name = "hold"
lasts = "4 s"
[[require]]
name = "pump is spared"
never_above = "P1.P.pressure"
limit = "200 bar"
during = "press"
)";

/// The good job with one piece of it exchanged; the piece must be in it.
inline std::string with(std::string_view piece, std::string_view instead) {
  std::string text(good);
  const std::size_t at = text.find(piece);
  EXPECT_NE(at, std::string::npos) << piece;
  return at == std::string::npos ? text : text.replace(at, piece.size(), instead);
}

/// The complaints about a text, one a line: "14:11: sentence"; empty for a job.
inline std::string complaints_of(std::string_view text) {
  const auto result = read_job(text, "press.toml");
  const auto* complaints = std::get_if<Complaints>(&result);
  std::string all;
  if (!complaints) return all;
  for (const Remark& remark : complaints->list) {
    all += std::to_string(remark.place.line) + ":" + std::to_string(remark.place.column) + ": " +
           remark.sentence + "\n";
  }
  return all;
}

/// The job of a text that must have no fault.
inline Job job_of(std::string_view text) {
  auto result = read_job(text, "press.toml");
  if (const auto* complaints = std::get_if<Complaints>(&result)) {
    ADD_FAILURE() << complaints->text(text);
    return {};
  }
  return std::get<Job>(std::move(result));
}

}  // namespace poise::reading
