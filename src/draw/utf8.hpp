// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>

namespace poise::draw {

/// Takes the next character of UTF-8 off the front of `rest`, which must not be empty. What is no UTF-8
/// comes out byte by byte as U+FFFD; control characters come out as blanks, since a line of text has none.
char32_t next_character(std::string_view& rest);

/// The same text, every character of it sound.
std::string sound(std::string_view text);

}  // namespace poise::draw
