// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/table.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace poise {

std::optional<int> find_parameter(std::span<const Parameter> table, std::string_view name) {
  for (int i = 0; i < static_cast<int>(table.size()); ++i) {
    if (table[i].name == name) return i;
  }
  return std::nullopt;
}

double Values::operator[](std::string_view name) const {
  const auto index = find_parameter(table_, name);
  if (!index) throw std::logic_error("no parameter '" + std::string(name) + "' in this part's table");
  return numbers_[*index];
}

void Values::set_points(int index, Points points) {
  numbers_[index] = static_cast<double>(points.size());
  std::erase_if(curves_, [index](const auto& curve) { return curve.first == index; });
  curves_.emplace_back(index, std::move(points));
}

std::span<const CurvePoint> Values::points(std::string_view name) const {
  const auto index = find_parameter(table_, name);
  for (const auto& [at, points] : curves_) {
    if (at == index) return points;
  }
  return {};
}

double CurveFit::worst() const {
  double off = 0.0, size = 0.0;
  for (const Row& row : rows) {
    off = std::max(off, std::abs(row.fitted - row.given));
    size = std::max(size, std::abs(row.given));
  }
  return size > 0.0 ? off / size : off;
}

bool Values::given(std::string_view name) const {
  const auto index = find_parameter(table_, name);
  return index && !std::isnan(numbers_[*index]);
}

}  // namespace poise
