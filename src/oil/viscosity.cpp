// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "oil/viscosity.hpp"

#include <cmath>

namespace poise {
namespace {

constexpr double reference = 1.962e8;  // Pa, of Roelands' law; 5.1e-9 1/Pa in other prints of it

}  // namespace

double roelands_exponent(double coefficient, double dynamic_viscosity) {
  return coefficient * reference / (std::log(dynamic_viscosity) + 9.67);
}

Viscosity::Here Viscosity::at(double pressure) const {
  if (constant()) return {at_zero_, 0.0};
  // With z = α·reference/(ln η0 + 9.67) Roelands' law is α·reference/z·((1 + p/reference)^z − 1), and z = 1
  // makes it Barus'.
  const double reduced = 1.0 + pressure / reference;
  const double power = exponent_ == 1.0 ? reduced : std::pow(reduced, exponent_);
  const double thickened = coefficient_ * reference / exponent_ * (power - 1.0);
  const double compressed = modulus_slope_ > 0.0
                                ? std::log1p(modulus_slope_ * pressure / modulus_) / modulus_slope_
                                : pressure / modulus_;
  const double value = at_zero_ * std::exp(thickened - compressed);
  const double give = 1.0 / (modulus_ + modulus_slope_ * pressure);
  return {value, value * (coefficient_ * power / reduced - give)};
}

}  // namespace poise
