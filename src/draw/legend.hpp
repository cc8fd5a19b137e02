// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "draw/lines.hpp"
#include "draw/pressure_colours.hpp"
#include "draw/sheet.hpp"

namespace poise::draw {

/// Size of a legend, mm.
inline constexpr double legend_width = 76.0, legend_height = 21.0;

/// What the colours and the arrows of a moment's drawing mean: a bar of pressures in round steps with their
/// unit, and arrows with the flows they stand for. From its lower left corner, mm.
Group legend(Point corner, const PressureScale& scale, const ArrowScale& arrows, double module,
             const units::World& world);

}  // namespace poise::draw
