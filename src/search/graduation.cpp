// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/graduation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace poise::search {
namespace {

using Steps = std::array<double, degrees>;

constexpr Steps bar_above_100{5.0, 2.5, 1.0, 0.5}, bar_below{1.0, 0.5, 0.2, 0.1};
constexpr Steps psi_above_1500{50.0, 25.0, 10.0, 5.0}, psi_below{10.0, 5.0, 2.0, 1.0};
constexpr Steps turns{0.25, 0.125, 0.05, 0.025};
constexpr double other_share = 0.02;
constexpr double high_pressure = 100 * si::bar;

/// The largest of 1, 2, 5 times a power of ten that is no larger.
double round_step(double size) {
  const double decade = std::pow(10.0, std::floor(std::log10(size)));
  const double first = size / decade;
  return (first >= 5.0 ? 5.0 : first >= 2.0 ? 2.0 : 1.0) * decade;
}

double step_in_unit(double value, Quantity quantity, const units::World& world, int degree) {
  const auto place = static_cast<std::size_t>(degree);
  if (quantity == Quantity::turns) return turns[place];
  if (quantity == Quantity::pressure && world[quantity] == "bar")
    return (value > high_pressure ? bar_above_100 : bar_below)[place];
  if (quantity == Quantity::pressure && world[quantity] == "psi")
    return (value > high_pressure ? psi_above_1500 : psi_below)[place];
  const double size = std::abs(units::in_unit(value, quantity, world));
  double step = size > 0.0 ? round_step(size * other_share) : 1.0;
  for (int i = 0; i < degree; ++i) step = round_step(0.6 * step);  // 5 to 2 to 1
  return step;
}

/// SI of one of the unit in which the world shows a quantity; without an offset.
double one(Quantity quantity, const units::World& world) {
  return 1.0 / units::difference_in_unit(1.0, quantity, world);
}

/// The shortest decimal number that is this one up to round-off, without a power of ten.
std::string shortest(double number) {
  constexpr int most = 15;
  for (int decimals = 0; decimals < most; ++decimals) {
    std::string text = fmt::format("{:.{}f}", number, decimals);
    if (std::abs(std::stod(text) - number) <= 1e-9 * std::abs(number)) return text;
  }
  return fmt::format("{:.{}f}", number, most);
}

}  // namespace

double set_step(double value, Quantity quantity, const units::World& world, int degree) {
  return step_in_unit(value, quantity, world, degree) * one(quantity, world);
}

double settable(double value, Quantity quantity, const units::World& world, int degree) {
  const double step = step_in_unit(value, quantity, world, degree);
  const double set = std::round(units::in_unit(value, quantity, world) / step) * step * one(quantity, world);
  // To the last bit what the job reads when it is written there: what is promised is then what it proves.
  return units::read(written(set, quantity, world), quantity).value.value_or(set);
}

std::string written(double value, Quantity quantity, const units::World& world) {
  const std::string number = shortest(units::in_unit(value, quantity, world));
  return quantity == Quantity::none ? number : number + " " + world[quantity];
}

}  // namespace poise::search
