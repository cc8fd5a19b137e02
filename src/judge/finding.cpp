// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/finding.hpp"

#include <cmath>

namespace poise {

double margin_of(double difference, double size) {
  constexpr double round_off = 1e-12;
  return std::abs(difference) <= round_off * std::abs(size) ? 0.0 : difference;
}

Finding measured(std::string found, double margin, Quantity quantity, std::optional<double> share) {
  Finding finding;
  finding.held = margin >= 0.0;
  finding.found = std::move(found);
  finding.margin = margin;
  finding.quantity = quantity;
  finding.share = share;
  return finding;
}

Finding broken(std::string found) {
  Finding finding;
  finding.found = std::move(found);
  return finding;
}

}  // namespace poise
