// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "draw/geometry.hpp"
#include "draw/schematic.hpp"

namespace poise::draw {

struct LabelSize {
  double width = 0.0, height = 0.0;
  friend bool operator==(const LabelSize&, const LabelSize&) = default;
};

/// The room that the words beside a symbol take, M: a row with the framed code and the tag, the lines of data
/// under it, a little air around. Nothing to say takes no room.
LabelSize label_size(const Words& words);

/// Words set in a label's box: where each line of text begins, on its base line, and the code's frame; M.
struct LabelText {
  struct Line {
    Point at;
    std::string words;
    bool bold = false;
  };
  std::vector<Line> lines;
  Box frame;  ///< around the code; empty without one
};

/// The words in a box of `label_size`, from its upper left corner down.
LabelText set_label(const Words& words, const Box& box);

}  // namespace poise::draw
