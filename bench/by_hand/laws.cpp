// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "by_hand/laws.hpp"

namespace poise::by_hand {
namespace {

/// ln S = ln(f·Re²), f by S. W. Churchill, Chemical Engineering 84 (1977) 91.
double ln_drop(double ln_re, double roughness) {
  const double re = std::exp(ln_re);
  const double a = std::pow(2.457 * std::log(1.0 / (std::pow(7.0 / re, 0.9) + 0.27 * roughness)), 16);
  const double b = std::pow(37530.0 / re, 16);
  const double f = 8.0 * std::pow(std::pow(8.0 / re, 12) + 1.0 / ((a + b) * std::sqrt(a + b)), 1.0 / 12.0);
  return std::log(f) + 2.0 * ln_re;
}

}  // namespace

Turbulence::Turbulence(double roughness) {
  // This stand stays below Re = 5000; the curve ends where the oil would move at metres per second times a
  // hundred.
  constexpr int points = 400;
  constexpr double h = 1e-5;
  const double from = std::log(1000.0), to = std::log(1e5);
  first_ = ln_drop(from, roughness);
  step_ = (ln_drop(to, roughness) - first_) / (points - 1);
  double ln_re = from;
  for (int i = 0; i < points; ++i) {
    double slope = 0.5;
    for (int newton = 0; newton < 20; ++newton) {
      slope = 2.0 * h / (ln_drop(ln_re + h, roughness) - ln_drop(ln_re - h, roughness));
      const double miss = first_ + i * step_ - ln_drop(ln_re, roughness);
      ln_re += slope * miss;
      if (std::abs(miss) < 1e-10) break;
    }
    ln_re_.push_back(ln_re);
    slope_.push_back(slope);
  }
}

}  // namespace poise::by_hand
