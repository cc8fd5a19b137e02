// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <vector>

#include "draw/geometry.hpp"
#include "draw/schematic.hpp"
#include "draw/sheet.hpp"
#include "parts/symbol.hpp"

namespace poise::draw {

/// A place about the origin, mirrored and turned as a symbol is set down.
Point turned(Point p, Turn turn);
/// A stroke so set down: corners of boxes stay lower left and upper right, angles lie from 0 to 360°.
Stroke turned(Stroke s, Turn turn);

/// What strokes cover, M, without the width of their lines: heads of arrows, windings of springs and the
/// open half of an arc taken as they are drawn. Nothing covers 0, 0.
Box extent_of(std::span<const Stroke> strokes);

/// Adds strokes about `origin` as marks, one module being `module` mm long. The pen says layer, width and
/// colour; the strokes say dash and filling. Lines that go on where the last one ended become one mark.
void add_strokes(std::vector<Mark>& marks, std::span<const Stroke> strokes, Point origin, double module,
                 Pen pen);

}  // namespace poise::draw
