// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <stdexcept>

#include "units/catalogue.hpp"
#include "units/system.hpp"
#include "units/text.hpp"
#include "units/units.hpp"

namespace poise::units {
namespace {

World world_of(std::string_view name, std::string_view Kind::*unit) {
  World world{std::string(name), {}};
  for (const Kind& each : kinds()) world.unit.at(static_cast<std::size_t>(each.quantity)) = each.*unit;
  return world;
}

Scale scale_in(const World& world, Quantity quantity) {
  if (quantity == Quantity::none) return {};
  const auto found = scale(plain(world[quantity]), quantity);
  if (!found) throw std::logic_error(fmt::format("\"{}\" is no unit of {}", world[quantity], name(quantity)));
  return *found;
}

std::string three_figures(double number) {
  if (number == 0.0) return "0";
  const std::string rounded = fmt::format("{:.2e}", number);
  const int power = std::atoi(rounded.c_str() + rounded.find('e') + 1);
  if (power < -4 || power > 6) return rounded;
  return fmt::format("{:.{}f}", std::strtod(rounded.c_str(), nullptr), std::max(0, 2 - power));
}

std::string with_unit(double number, Quantity quantity, const World& world) {
  if (!std::isfinite(number)) return "no value";
  const std::string& unit = world[quantity];
  return unit.empty() ? three_figures(number) : fmt::format("{} {}", three_figures(number), unit);
}

}  // namespace

const World& metric() {
  static const World world = world_of("metric", &Kind::metric);
  return world;
}

const World& us() {
  static const World world = world_of("us", &Kind::us);
  return world;
}

bool set_unit(World& world, Quantity quantity, std::string_view unit) {
  unit = trimmed(unit);
  if (quantity == Quantity::none) return unit.empty();
  if (!scale(plain(unit), quantity)) return false;
  world.unit.at(static_cast<std::size_t>(quantity)) = unit;
  return true;
}

double in_unit(double value, Quantity quantity, const World& world) {
  const Scale line = scale_in(world, quantity);
  const double number = line.from_si(value);
  // 0 degC and 0 degF are differences of kelvins whose last digits are noise.
  return std::abs(number * line.factor) < 1e-12 * line.zero ? 0.0 : number;
}

double difference_in_unit(double value, Quantity quantity, const World& world) {
  return value / scale_in(world, quantity).factor;
}

std::string show(double value, Quantity quantity, const World& world) {
  return with_unit(in_unit(value, quantity, world), quantity, world);
}

std::string show_difference(double value, Quantity quantity, const World& world) {
  return with_unit(difference_in_unit(value, quantity, world), quantity, world);
}

}  // namespace poise::units
