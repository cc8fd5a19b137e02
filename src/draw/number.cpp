// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/number.hpp"

#include <fmt/format.h>

namespace poise::draw {

std::string plain_number(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.ends_with('.')) text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

}  // namespace poise::draw
