// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/utf8.hpp"

namespace poise::draw {
namespace {

constexpr char32_t replacement = 0xFFFD;

unsigned char byte_of(std::string_view text, std::size_t at) { return static_cast<unsigned char>(text[at]); }

/// Bytes of the character that begins with this one; 0 if none does.
std::size_t length_from(unsigned char first) {
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first <= 0xDF) return 2;
  if (first >= 0xE0 && first <= 0xEF) return 3;
  return first >= 0xF0 && first <= 0xF4 ? 4 : 0;
}

bool is_spoilt(char32_t c, std::size_t length) {
  const bool too_long = (length == 3 && c < 0x800) || (length == 4 && c < 0x10000);
  const bool half_of_a_pair = c >= 0xD800 && c <= 0xDFFF;
  return too_long || half_of_a_pair || c > 0x10FFFF || c == 0xFFFE || c == 0xFFFF;
}

bool is_control(char32_t c) { return c < 0x20 || (c >= 0x7F && c < 0xA0); }

}  // namespace

char32_t next_character(std::string_view& rest) {
  const unsigned char first = byte_of(rest, 0);
  const std::size_t length = length_from(first);
  char32_t c = length <= 1 ? first : first & (0xFFU >> (length + 1));
  bool whole = length > 0 && length <= rest.size();
  for (std::size_t i = 1; whole && i < length; ++i) {
    whole = (byte_of(rest, i) & 0xC0U) == 0x80U;
    c = (c << 6U) | (byte_of(rest, i) & 0x3FU);
  }
  if (!whole || is_spoilt(c, length)) {
    rest.remove_prefix(1);
    return replacement;
  }
  rest.remove_prefix(length);
  return is_control(c) ? U' ' : c;
}

std::string sound(std::string_view text) {
  std::string all;
  while (!text.empty()) {
    const std::string_view before = text;
    const char32_t c = next_character(text);
    if (c == replacement) {
      all += "\xEF\xBF\xBD";
    } else if (c == U' ') {
      all += ' ';
    } else {
      all += before.substr(0, before.size() - text.size());
    }
  }
  return all;
}

}  // namespace poise::draw
