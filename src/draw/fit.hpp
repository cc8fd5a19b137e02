// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string_view>

#include "draw/lines.hpp"
#include "draw/paper.hpp"
#include "draw/schematic.hpp"

namespace poise::draw {

/// Length of a module, mm, where there is room, and where there is less (ISO 1219-1, from memory).
inline constexpr double full_module = 2.5, reduced_module = 2.0;

/// How a schematic lies on its paper.
struct Fit {
  Paper paper = Paper::a4;
  Mapping mapping;
  std::optional<Point> legend;  ///< lower left corner of its place, mm; where one is wanted
};

/// The paper by its word; without one A4, or A3 where even a reduced module is too large for it. The module
/// is the full one, the reduced one, or what fits. The legend stands where the drawing leaves room for it; if
/// it leaves none, the drawing makes room.
Fit fit(const Schematic& schematic, std::string_view paper, bool with_legend);

}  // namespace poise::draw
