// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/dxf_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "draw/utf8.hpp"

namespace poise::draw {
namespace {

constexpr std::size_t longest_line = 255;

std::string code_of(char32_t c) {
  if (c <= 0xFFFF) return fmt::format("\\U+{:04X}", static_cast<unsigned>(c));
  const unsigned above = static_cast<unsigned>(c) - 0x10000;  // as a pair of UTF-16
  return fmt::format("\\U+{:04X}\\U+{:04X}", 0xD800 + (above >> 10U), 0xDC00 + (above & 0x3FFU));
}

std::string written(char32_t c, bool after_percent, std::string_view rest) {
  switch (c) {
    case 0x00B0:
      return "%%d";
    case 0x00B1:
      return "%%p";
    case 0x2300:
      return "%%c";
    case U'^':
      return "^ ";
    case U'%':
      // Two in a row begin a code; one stands for itself.
      return after_percent || rest.starts_with('%') ? "%%%" : "%";
    case U'\\':
      return rest.starts_with("U+") || rest.starts_with("M+") ? code_of(c) : "\\";
    default:
      return c < 0x80 ? std::string(1, static_cast<char>(c)) : code_of(c);
  }
}

struct Tone {
  double red, green, blue;
};

/// A full colour of the wheel, 0 red, 120 green, 240 blue.
Tone of_wheel(double degrees) {
  const auto share = [&](double off) {
    const double turned = std::fmod(degrees + off, 360.0);
    return std::clamp(std::abs(turned - 180.0) / 60.0 - 1.0, 0.0, 1.0);
  };
  return {share(0.0), share(240.0), share(120.0)};
}

/// 10 to 249 are 24 hues of 5 depths, each full and pale; 250 to 255 are greys (from memory; compared with
/// the table of ezdxf in its test).
Tone tone_of(int number) {
  if (number >= 250) {
    constexpr std::array greys{0.20, 0.31, 0.41, 0.51, 0.75, 1.0};
    const double grey = greys[static_cast<std::size_t>(number - 250)];
    return {grey, grey, grey};
  }
  constexpr std::array depths{1.0, 0.65, 0.5, 0.3, 0.15};
  const int hue = number / 10 - 1;
  const Tone full = of_wheel(15.0 * hue);
  const double depth = depths[static_cast<std::size_t>(number % 10 / 2)];
  const double pale = number % 2 == 1 ? 0.5 : 0.0;
  const auto mixed = [&](double share) { return depth * (share + pale * (1.0 - share)); };
  return {mixed(full.red), mixed(full.green), mixed(full.blue)};
}

}  // namespace

std::string dxf_text(std::string_view utf8) {
  constexpr std::string_view dots = "...";
  std::string text;
  std::size_t whole = 0;  // bytes up to the last character that leaves room for the dots
  for (bool after_percent = false; !utf8.empty();) {
    const char32_t c = next_character(utf8);
    text += written(c, after_percent, utf8);
    after_percent = c == U'%';
    if (text.size() + dots.size() <= longest_line) whole = text.size();
  }
  if (text.size() <= longest_line) return text;
  return text.substr(0, whole) + std::string(dots);
}

int dxf_colour(Colour colour) {
  int nearest = 0;
  double least = std::numeric_limits<double>::infinity();
  for (int number = 10; number <= 255; ++number) {
    const Tone tone = tone_of(number);
    const double red = tone.red - colour.red / 255.0, green = tone.green - colour.green / 255.0,
                 blue = tone.blue - colour.blue / 255.0;
    const double off = red * red + green * green + blue * blue;
    if (off < least) least = off, nearest = number;
  }
  return nearest;
}

}  // namespace poise::draw
