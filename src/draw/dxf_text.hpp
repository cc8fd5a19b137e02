// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>

#include "draw/sheet.hpp"

namespace poise::draw {

/// One line of text as release 12 writes it, in ASCII: "%%d" for °, "%%p" for ± and "%%c" for the sign ⌀,
/// which every reader knows; \U+XXXX for everything else, which all but the oldest know, letters such as ø
/// among them, since a name must stay that name. Signs that would be taken for such a code are guarded. At
/// most 255 bytes: a longer line is cut.
std::string dxf_text(std::string_view utf8);

/// The number of the colour nearest to this one among the 255 of CAD programs, 10 to 255.
int dxf_colour(Colour colour);

}  // namespace poise::draw
