// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <cstddef>
#include <limits>
#include <string>
#include <string_view>
#include <vector>

namespace poise::draw {

/// How long a line of text gets at most in a sans-serif font of Arial's widths, in the unit of `size`, the
/// size of the font. From the widths of its letters, alike ones taken together; letters that move closer
/// together in pairs are not counted on.
double text_width(std::string_view utf8, double size, bool bold = false);

/// How far capitals stand above their base line, tails hang below it, and base lines lie apart, as shares of
/// the font's size.
inline constexpr double capital_share = 0.72, tail_share = 0.22, pitch_share = 1.2;

/// From the top of the first line's capitals to the tails of the last.
double text_height(std::size_t lines, double size);

/// A text made to fit its place.
struct Fitted {
  double size = 0.0;
  std::vector<std::string> lines;
};

/// The place a text must not leave.
struct Place {
  double width = 0.0;  ///< of a line
  double height = std::numeric_limits<double>::infinity();
  double size = 0.0;   ///< of the font, where the text fits at it
  double least = 0.0;  ///< as small as the font may get
  std::size_t most_lines = 1;
  bool bold = false;
};

/// The text in its place: in one line if the smallest letters allow it, then in more, as large as they fit;
/// what does not fit even at the smallest is cut and ends in "…". Blanks are where it may be broken; a word
/// too long for a line is broken within.
Fitted fitted(std::string_view utf8, const Place& place);

}  // namespace poise::draw
