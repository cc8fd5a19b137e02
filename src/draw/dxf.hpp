// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "draw/sheet.hpp"

namespace poise::draw {

/// The sheet as a DXF file for any CAD program: the plain subset of release 12 (AC1009), in millimetres, y
/// up, one layer for each of ours in use, ASCII only. Release 12 knows no unit of its drawing, no weight of
/// a line and no colour beyond its 255 numbers: layers tell lines apart for the plotter, and a colour
/// becomes the nearest number.
std::string dxf(const Sheet& sheet);

}  // namespace poise::draw
