// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace poise::draw {

/// How long a line of text gets at most in a sans-serif font of Arial's widths, in the unit of `size`, the
/// size of the font. From the widths of its letters, alike ones taken together; letters that move closer
/// together in pairs are not counted on.
double text_width(std::string_view utf8, double size, bool bold = false);

/// A text made to fit its place.
struct Fitted {
  double size = 0.0;
  std::vector<std::string> lines;
};

/// The place a text must not leave.
struct Place {
  double width = 0.0;  ///< of a line
  double size = 0.0;   ///< of the font, where the text fits at it
  double least = 0.0;  ///< as small as the font may get
  std::size_t most_lines = 1;
  bool bold = false;
};

/// The text in its place: in one line if the smallest letters allow it, then in more; what still does not
/// fit is cut and ends in "…". Blanks are where it may be broken; a word too long for a line is broken
/// within.
Fitted fitted(std::string_view utf8, const Place& place);

}  // namespace poise::draw
