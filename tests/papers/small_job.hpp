// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

#include "papers/table.hpp"

namespace poise::papers::small {

/// A pump whose oil goes to tank over a needle and a hose, and a relief valve that it does not reach; in the
/// second step the needle is turned down and the relief valve takes the rest. Invented.
inline std::string job() {
  return R"(
title = "Flushing a bogie's brake line"
[oil]
grade = "ISO VG 46"
temperature = "40 degC"
[parts.T1]
kind = "reservoir"
usable_oil = "12 L"
[parts.P1]
kind = "pump"
flow = "4 L/min"
volumetric_efficiency = "100 %"
rated_pressure = "250 bar"
[parts.V1]
kind = "relief"
note = "limits the pump line"
setting = "150 bar"
rated_flow = "10 L/min"
rated_pressure = "350 bar"
[parts.N1]
kind = "needle"
bore = "3 mm"
turns = "2 turns"
rated_pressure = "350 bar"
[parts.G1]
kind = "gauge"
range = "250 bar"
[[lines]]
from = "T1.T"
to = "P1.S"
[[lines]]
from = "P1.P"
to = ["V1.P", "N1.A", "G1.M"]
[[lines]]
from = "V1.T"
to = "T1.T"
[[lines]]
from = "N1.B"
to = "T1.T"
hose = { bore = "10 mm", length = "2 m", fittings = 0, rated_pressure = "100 bar" }
[[steps]]
name = "flush"
set = { P1 = "on" }
lasts = "3 s"
[[steps]]
name = "throttle"
set = { N1 = "0.25 turns" }
lasts = "3 s"
[[require]]
name = "the pump line is safe"
never_above = "P1.P.pressure"
limit = "180 bar"
)";
}

/// The text with its first `what` replaced; throws where it is not there.
inline std::string with(std::string text, std::string_view what, std::string_view instead) {
  const auto at = text.find(what);
  if (at == std::string::npos) throw std::runtime_error("no \"" + std::string(what) + "\" in the job");
  return text.replace(at, what.size(), instead);
}

/// The cell of a row under a head; throws where there is none.
inline const Cell& cell(const Table& table, std::size_t row, std::string_view head) {
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    if (table.columns[i].head == head) return table.rows.at(row).at(i);
  }
  throw std::runtime_error("no column " + std::string(head));
}

/// The first row that says `text` under a head; throws where there is none.
inline std::size_t row(const Table& table, std::string_view head, std::string_view text) {
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    if (cell(table, i, head).text == text) return i;
  }
  throw std::runtime_error("no row with " + std::string(text));
}

}  // namespace poise::papers::small
