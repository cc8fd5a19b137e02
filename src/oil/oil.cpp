// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "oil/oil.hpp"

#include <algorithm>
#include <cmath>

#include "quantity/quantity.hpp"

namespace poise {
namespace {

constexpr double atmosphere = si::atmosphere;
constexpr double air_floor = 1e-5;
// Below this share of an atmosphere (absolute) a starved volume is empty for every purpose.
constexpr double vacuum = 1e-12;

double walther(double viscosity) { return std::log10(std::log10(viscosity / si::mm2_per_s + 0.7)); }

}  // namespace

double walther_viscosity(double viscosity_40, double viscosity_100, double temperature) {
  const double t40 = std::log10(40.0 + si::zero_celsius);
  const double t100 = std::log10(100.0 + si::zero_celsius);
  const double b = (walther(viscosity_40) - walther(viscosity_100)) / (t100 - t40);
  const double a = walther(viscosity_40) + b * t40;
  return (std::pow(10.0, std::pow(10.0, a - b * std::log10(temperature))) - 0.7) * si::mm2_per_s;
}

Oil::Oil(const OilData& data)
    : density_0_(data.density_15 * (1.0 - data.expansivity * (data.temperature - si::zero_celsius - 15.0))),
      viscosity_(walther_viscosity(data.viscosity_40, data.viscosity_100, data.temperature)),
      modulus_(data.modulus),
      slope_(data.modulus_slope),
      air_(std::max(data.air, air_floor)),
      exponent_(data.air_exponent) {}

Oil::Ratio Oil::volume_ratio(double pressure) const {
  const double liquid = slope_ > 0.0 ? std::exp(-std::log1p(slope_ * pressure / modulus_) / slope_)
                                     : std::exp(-pressure / modulus_);
  const double absolute = pressure + atmosphere;
  const double air = air_ * std::exp(std::log(atmosphere / absolute) / exponent_);
  return {(1.0 - air_) * liquid + air,
          -(1.0 - air_) * liquid / (modulus_ + slope_ * pressure) - air / (exponent_ * absolute)};
}

Oil::Density Oil::density(double pressure) const {
  const Ratio v = volume_ratio(pressure);
  return {density_0_ / v.value, -density_0_ * v.slope / (v.value * v.value)};
}

double Oil::effective_modulus(double pressure) const {
  const Ratio v = volume_ratio(pressure);
  return -v.value / v.slope;
}

double Oil::enthalpy(double pressure) const {
  const double absolute = (pressure + atmosphere) / atmosphere;
  double liquid;
  if (slope_ == 0.0) {
    liquid = -modulus_ * std::expm1(-pressure / modulus_);
  } else if (slope_ == 1.0) {
    liquid = modulus_ * std::log1p(pressure / modulus_);
  } else {
    liquid = modulus_ / (slope_ - 1.0) *
             std::expm1((1.0 - 1.0 / slope_) * std::log1p(slope_ * pressure / modulus_));
  }
  const double power = 1.0 - 1.0 / exponent_;
  const double air = power == 0.0 ? std::log(absolute) : std::expm1(power * std::log(absolute)) / power;
  return ((1.0 - air_) * liquid + air_ * atmosphere * air) / density_0_;
}

double Oil::strain_energy(double pressure) const {
  return enthalpy(pressure) - pressure / density(pressure).value;
}

bool Oil::pressure_of(double mass, double volume, double wall, double guess, double& pressure) const {
  Density density;
  return state_of(mass, volume, wall, guess, pressure, density);
}

bool Oil::state_of(double mass, double volume, double wall, double guess, double& pressure,
                   Density& density) const {
  if (!(mass > 0.0) || !(volume > 0.0)) return false;
  const double target =
      density_0_ * volume / mass;  // v(p)/v(0) − target − give·p is convex and falling: one root
  const double give = density_0_ * wall / mass;
  const double floor = -atmosphere * (1.0 - vacuum);
  double p = std::max(guess, floor);
  for (int i = 0; i < 60; ++i) {
    const Ratio v = volume_ratio(p);
    const double step = (v.value - target - give * p) / (v.slope - give);
    // From the stiff side the first step may point far below vacuum: go a tenth of the way to it instead.
    const double next = std::max(p - step, floor + 0.1 * (p - floor));
    const double moved = std::abs(next - p);
    p = next;
    if (moved <=
        1e-7 * (p + atmosphere)) {  // quadratic convergence: the error left is about the square of this
      pressure = p;
      density.value = mass / (volume + wall * p);
      density.slope = -v.slope * density.value * density.value / density_0_;
      return true;
    }
  }
  return false;
}

}  // namespace poise
