// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "draw/sheet.hpp"

namespace poise::draw {

/// The sheet as an SVG file in real millimetres that stands by itself: black ink on white paper, text as
/// text. Each group is a <g> of its kind's class with its name as data-name; each mark has its layer's class.
/// Ink is currentColor and the paper is the class "paper", so a page that shows the file inline can turn
/// both: svg { color: white } .paper { fill: none }.
std::string svg(const Sheet& sheet);

}  // namespace poise::draw
