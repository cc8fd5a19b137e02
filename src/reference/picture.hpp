// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "draw/geometry.hpp"
#include "parts/symbol.hpp"

namespace poise::reference {

/// What strokes and anchors cover, M.
draw::Box extent_of(std::span<const Stroke> strokes, std::span<const Anchor> anchors);

/// A graphic symbol as a picture that stands by itself: an SVG with lines 0.1 M wide, the name of each port
/// at its anchor as text, readable on light and dark paper. `title` is its text for those who cannot see it.
std::string svg(std::span<const Stroke> strokes, std::span<const Anchor> anchors,
                std::span<const std::string_view> port_names, std::string_view title);

}  // namespace poise::reference
