// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string_view>

namespace poise::papers {

/// Width of a text's longest line in a spreadsheet's measure, the breadth of a figure. Letters of Chinese and
/// Japanese are as broad as two.
double breadth_of(std::string_view text);

/// Lines that a text takes in a column of this width, broken at its blanks and, where a word is longer,
/// inside it.
int lines_of(std::string_view text, double width);

}  // namespace poise::papers
