// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "draw/sheet.hpp"

namespace poise::draw {

/// Every layer, in the order of the enumeration.
inline constexpr std::array every_layer{Layer::symbols,    Layer::working,    Layer::pilot,
                                        Layer::mechanical, Layer::enclosures, Layer::flow,
                                        Layer::labels,     Layer::frame,      Layer::chart};

/// A layer's plain name, in SVG and DXF alike.
constexpr std::string_view name_of(Layer layer) {
  constexpr std::array<std::string_view, every_layer.size()> names{
      "symbols", "working", "pilot", "mechanical", "enclosures", "flow", "labels", "frame", "chart"};
  return names[static_cast<std::size_t>(layer)];
}

/// Lengths of dash, gap, dash, gap ... in widths of the line: short dashes of pilot and drain lines, long
/// dash and dot of enclosures (proportions our own; kinds of lines as in ISO 1219-1, from memory).
inline constexpr std::array<double, 2> short_dashes{6.0, 3.0};
inline constexpr std::array<double, 4> long_dash_dot{14.0, 3.0, 1.0, 3.0};

}  // namespace poise::draw
