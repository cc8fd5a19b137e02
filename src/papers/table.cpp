// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/table.hpp"

#include <cmath>

#include "draw/words.hpp"
#include "judge/wording.hpp"

namespace poise::papers {
namespace {

/// Text, number and unit of one value, all three in the unit in which the text tells it.
Cell cell_of(std::string text, double value, Quantity quantity, const units::World& world) {
  if (!std::isfinite(value)) return {.text = std::move(text)};
  return {.text = std::move(text), .number = units::in_unit(value, quantity, world), .unit = world[quantity]};
}

/// Below what the run can tell, which is what a resting circuit creeps by.
double noise_of(Quantity quantity) {
  switch (quantity) {
    case Quantity::pressure:
      return 10.0;
    case Quantity::flow:
      return 0.5 * si::cm3_per_minute;
    case Quantity::length:
      return 1e-7;
    case Quantity::angle:
      return 1e-5;
    case Quantity::speed:
      return 1e-6;
    case Quantity::force:
      return 1.0;
    case Quantity::torque:
      return 0.01;
    case Quantity::power:
      return 0.05;
    case Quantity::energy:
      return 0.01;
    default:
      return 0.0;
  }
}

}  // namespace

bool is_noise(double value, Quantity quantity) { return std::abs(value) <= noise_of(quantity); }

Cell seen(double value, Quantity quantity, const units::World& world) {
  return measured(is_noise(value, quantity) ? 0.0 : value, quantity, world);
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
  return cell_of(text.substr(0, blank) + draw::with_raised_figures(std::string_view(text).substr(blank)),
                 value, quantity, told);
}

}  // namespace poise::papers
