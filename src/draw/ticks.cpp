// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/ticks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace poise::draw {
namespace {

/// A multiple that misses an end of the axis by rounding alone still counts.
constexpr double rounding = 1e-9;
/// From here on, and below its inverse, powers of ten are easier to read than zeros.
constexpr int many_zeros = 6;

long first_multiple(double low, double step) { return static_cast<long>(std::ceil(low / step - rounding)); }
long last_multiple(double high, double step) { return static_cast<long>(std::floor(high / step + rounding)); }

}  // namespace

Ticks nice_ticks(double low, double high, int most) {
  const double size = std::max(std::abs(low), std::abs(high));
  const double span = high - low > rounding * size ? high - low : std::max(size, 1.0);
  int power = static_cast<int>(std::floor(std::log10(span / most))) - 1;
  for (;; ++power) {
    for (const double figure : std::array{1.0, 2.0, 5.0}) {
      const double step = figure * std::pow(10.0, power);
      const long first = first_multiple(low, step), last = last_multiple(high, step);
      if (last - first + 1 > most) continue;
      Ticks ticks{.step = step, .decimals = std::max(0, -power), .at = {}};
      for (long k = first; k <= last; ++k) ticks.at.push_back(static_cast<double>(k) * step);
      return ticks;
    }
  }
}

std::string tick_label(double value, const Ticks& ticks) {
  if (std::abs(value) < rounding * ticks.step) return "0";
  const double size = std::abs(value);
  if (size >= std::pow(10.0, many_zeros) || ticks.decimals > many_zeros) return fmt::format("{:.3g}", value);
  return fmt::format("{:.{}f}", value, ticks.decimals);
}

}  // namespace poise::draw
