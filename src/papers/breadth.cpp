// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/breadth.hpp"

#include <algorithm>
#include <cmath>

#include "draw/utf8.hpp"

namespace poise::papers {
namespace {

double breadth_of_line(std::string_view text) {
  constexpr char32_t first_broad = 0x1100;  // from here on most letters are as broad as two
  double sum = 0.0;
  while (!text.empty()) sum += draw::next_character(text) >= first_broad ? 2.0 : 1.0;
  return sum;
}

/// Takes the text up to a sign off its front, and the sign with it.
std::string_view next(std::string_view& rest, char sign) {
  const std::string_view taken = rest.substr(0, rest.find(sign));
  rest.remove_prefix(std::min(rest.size(), taken.size() + 1));
  return taken;
}

int lines_of_paragraph(std::string_view text, double width) {
  int lines = 1;
  double used = 0.0;
  while (!text.empty()) {
    const double word = breadth_of_line(next(text, ' '));
    const double with_blank = used > 0.0 ? used + 1.0 + word : word;
    if (with_blank <= width) {
      used = with_blank;
      continue;
    }
    if (used > 0.0) ++lines;
    const double broken = std::max(std::ceil(word / width) - 1.0, 0.0);
    lines += static_cast<int>(broken);
    used = word - broken * width;
  }
  return lines;
}

}  // namespace

double breadth_of(std::string_view text) {
  double widest = 0.0;
  while (!text.empty()) widest = std::max(widest, breadth_of_line(next(text, '\n')));
  return widest;
}

int lines_of(std::string_view text, double width) {
  int lines = 0;
  do {
    lines += lines_of_paragraph(next(text, '\n'), std::max(width, 1.0));
  } while (!text.empty());
  return lines;
}

}  // namespace poise::papers
