// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "oil/viscosity_index.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "oil/viscosity_index_table.hpp"
#include "quantity/quantity.hpp"

namespace poise {
namespace {

constexpr double table_from = 2.0, table_to = 70.0;  // mm2/s at 100 °C
constexpr double scale = 0.00715;                    // of procedure B

/// Place of a viscosity at 100 °C among the lines of the table.
double line_of(double y) {
  if (y <= 20.0) return (y - 2.0) / 0.1;
  if (y <= 30.0) return 180.0 + (y - 20.0) / 0.2;
  return 230.0 + (y - 30.0) / 0.5;
}

double between_lines(const std::array<double, basic_values>& values, double line) {
  const auto i = static_cast<std::size_t>(std::clamp(line, 0.0, basic_values - 2.0));
  return values[i] + (line - static_cast<double>(i)) * (values[i + 1] - values[i]);
}

/// y·(a + b·y) through the values at 2 and 3 mm2/s.
double below_table(const std::array<double, basic_values>& values, double y) {
  const double at_2 = values[0] / 2.0, at_3 = values[10] / 3.0;
  return y * (at_2 + (y - 2.0) * (at_3 - at_2));
}

/// Viscosity at 40 °C of an oil with this index and this viscosity at 100 °C, all in mm2/s; grows with y.
double viscosity_40_of(double y, double index) {
  const BasicValues basic = basic_values_at(y * si::mm2_per_s);
  if (index <= 100.0) return (basic.low - index / 100.0 * (basic.low - basic.high)) / si::mm2_per_s;
  const double n = std::log10(scale * (index - 100.0) + 1.0);
  return basic.high / si::mm2_per_s / std::pow(y, n);
}

}  // namespace

BasicValues basic_values_at(double viscosity_100) {
  const double y = viscosity_100 / si::mm2_per_s;
  double low = 0.0, high = 0.0;
  if (y < table_from) {
    low = below_table(basic_low, y);
    high = below_table(basic_high, y);
  } else if (y <= table_to) {
    low = between_lines(basic_low, line_of(y));
    high = between_lines(basic_high, line_of(y));
  } else {
    low = (0.8353 * y + 14.67) * y - 216.0;
    high = (0.1684 * y + 11.85) * y - 97.0;
  }
  return {low * si::mm2_per_s, high * si::mm2_per_s};
}

double viscosity_index(double viscosity_40, double viscosity_100) {
  const auto [low, high] = basic_values_at(viscosity_100);
  if (viscosity_40 >= high) return 100.0 * (low - viscosity_40) / (low - high);
  const double n = std::log(high / viscosity_40) / std::log(viscosity_100 / si::mm2_per_s);
  return (std::pow(10.0, n) - 1.0) / scale + 100.0;
}

std::optional<double> viscosity_100_of(double viscosity_40, double index) {
  const double wanted = viscosity_40 / si::mm2_per_s;
  // Oil is thinner at 100 °C than at 40 °C: the answer lies below `wanted`.
  double below = index > 100.0 ? table_from : 0.0, above = wanted;
  if (!(above > below) || viscosity_40_of(below, index) > wanted) return std::nullopt;
  for (double middle = 0.5 * (below + above); below < middle && middle < above;
       middle = 0.5 * (below + above))
    (viscosity_40_of(middle, index) > wanted ? above : below) = middle;
  return above * si::mm2_per_s;
}

}  // namespace poise
