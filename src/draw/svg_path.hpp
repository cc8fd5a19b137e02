// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>

#include "draw/sheet.hpp"

namespace poise::draw {

/// The data of an SVG path along a shape other than text. In a picture y runs down: `top` is the height of
/// the drawing's upper edge.
std::string svg_path(const Mark& mark, double top, int decimals);

/// Text as content or attribute of XML.
std::string xml_text(std::string_view text);

}  // namespace poise::draw
