// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/table.hpp"

#include <cmath>

#include "draw/words.hpp"
#include "judge/nothing.hpp"
#include "judge/wording.hpp"

namespace poise::papers {
namespace {

/// Text, number and unit of one value, all three in the unit in which the text tells it.
Cell cell_of(std::string text, double value, Quantity quantity, const units::World& world) {
  if (!std::isfinite(value)) return {.text = std::move(text)};
  return {.text = std::move(text), .number = units::in_unit(value, quantity, world), .unit = world[quantity]};
}

/// More figures than these nobody states: the value was stated in another unit, and its conversion is no more
/// exact than any other number.
constexpr int most_stated = 4;

/// The figures of a number that count: "0.0472441" has 6, "1200" has 2, "2.50" has 3.
int figures_of(std::string_view number) {
  int figures = 0, zeros = 0;
  const bool whole = number.find('.') == std::string_view::npos;
  for (const char c : number) {
    if (c == 'e') break;
    if (c < '0' || c > '9' || (c == '0' && figures == 0)) continue;
    ++figures;
    zeros = c == '0' ? zeros + 1 : 0;
  }
  return whole ? figures - zeros : figures;
}

}  // namespace

Cell seen(double value, Quantity quantity, const units::World& world) {
  return measured(is_nothing(value, quantity) ? 0.0 : value, quantity, world);
}

Cell measured(double value, Quantity quantity, const units::World& world) {
  return cell_of(draw::shown(value, quantity, world), value, quantity,
                 draw::world_to_show(value, quantity, world));
}

Cell stated(double value, Quantity quantity, const units::World& world) {
  const units::World told = draw::world_to_show(value, quantity, world);
  const std::string text = std::isfinite(value) ? wording::stated(value, quantity, told) : "no value";
  const auto blank = text.find(' ');
  if (blank == std::string::npos) return cell_of(text, value, quantity, told);
  if (figures_of(std::string_view(text).substr(0, blank)) > most_stated)
    return measured(value, quantity, world);
  return cell_of(text.substr(0, blank) + draw::with_raised_figures(std::string_view(text).substr(blank)),
                 value, quantity, told);
}

}  // namespace poise::papers
