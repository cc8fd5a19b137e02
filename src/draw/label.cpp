// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/label.hpp"

#include <algorithm>
#include <string_view>

#include "draw/letters.hpp"

namespace poise::draw {
namespace {

constexpr double air = 0.25;         // around the whole label
constexpr double frame_air = 0.35;   // left and right of the code in its frame
constexpr double frame_high = 1.55;  // less than the pitch: it keeps off the line below
constexpr double gap = 0.6;          // between the frame and the tag
constexpr double base = 0.45;        // of a row's base line above the row's lower edge

double width_of(std::string_view text, bool bold) { return text_width(text, letter_size, bold); }

double code_width(const Words& words) {
  return words.code.empty() ? 0.0 : width_of(words.code, false) + 2 * frame_air;
}

double head_width(const Words& words) {
  const double between = !words.code.empty() && !words.tag.empty() ? gap : 0.0;
  return code_width(words) + between + width_of(words.tag, true);
}

bool has_head(const Words& words) { return !words.code.empty() || !words.tag.empty(); }

}  // namespace

LabelSize label_size(const Words& words) {
  const auto rows = static_cast<double>(words.lines.size()) + (has_head(words) ? 1.0 : 0.0);
  if (rows == 0.0) return {};
  double width = head_width(words);
  for (const std::string& line : words.lines) width = std::max(width, width_of(line, false));
  return {width + 2 * air, rows * line_pitch + 2 * air};
}

LabelText set_label(const Words& words, const Box& box) {
  LabelText text;
  double low = box.high - air, left = box.left + air;
  if (has_head(words)) {
    low -= line_pitch;
    if (!words.code.empty()) {
      const double middle = low + 0.5 * line_pitch;
      text.frame = {left, middle - 0.5 * frame_high, left + code_width(words), middle + 0.5 * frame_high};
      text.lines.push_back({{left + frame_air, low + base}, words.code, false});
    }
    const double tag_at = words.code.empty() ? left : left + code_width(words) + gap;
    if (!words.tag.empty()) text.lines.push_back({{tag_at, low + base}, words.tag, true});
  }
  for (const std::string& line : words.lines) {
    low -= line_pitch;
    text.lines.push_back({{left, low + base}, line, false});
  }
  return text;
}

}  // namespace poise::draw
