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
constexpr double lowest = -atmosphere * (1.0 - vacuum);
// Share of the absolute pressure over which four terms of the series of v(p) are good to 1e-12 of that
// pressure.
constexpr double within = 1e-3;

double walther(double viscosity) { return std::log10(std::log10(viscosity / si::mm2_per_s + 0.7)); }

Viscosity viscosity_of(const OilData& data, double density) {
  const double at_zero = walther_viscosity(data.viscosity_40, data.viscosity_100, data.temperature);
  if (data.pressure_viscosity == PressureViscosity::none) return at_zero;
  const double coefficient = data.pressure_viscosity_coefficient;
  const bool barus = data.pressure_viscosity == PressureViscosity::barus;
  return {at_zero, coefficient, barus ? 1.0 : roelands_exponent(coefficient, at_zero * density), data.modulus,
          data.modulus_slope};
}

}  // namespace

double walther_viscosity(const ViscosityPoint& one, const ViscosityPoint& other, double temperature) {
  const double t_one = std::log10(one.temperature), t_other = std::log10(other.temperature);
  const double b = (walther(one.viscosity) - walther(other.viscosity)) / (t_other - t_one);
  const double a = walther(one.viscosity) + b * t_one;
  return (std::pow(10.0, std::pow(10.0, a - b * std::log10(temperature))) - 0.7) * si::mm2_per_s;
}

double walther_viscosity(double viscosity_40, double viscosity_100, double temperature) {
  return walther_viscosity(ViscosityPoint{viscosity_40, 40.0 + si::zero_celsius},
                           ViscosityPoint{viscosity_100, 100.0 + si::zero_celsius}, temperature);
}

Oil::Oil(const OilData& data)
    : density_0_(data.density_15 * (1.0 - data.expansivity * (data.temperature - si::zero_celsius - 15.0))),
      expansion_(data.expansivity * data.density_15 / density_0_),
      viscosity_(viscosity_of(data, density_0_)),
      modulus_(data.modulus),
      slope_(data.modulus_slope),
      air_(std::max(data.air, air_floor)),
      exponent_(data.air_exponent),
      heat_capacity_(data.heat_capacity),
      temperature_(data.temperature) {}

Oil::Ratio Oil::volume_ratio(double pressure) const {
  const double modulus = modulus_ + slope_ * pressure;
  const double liquid =
      (1.0 - air_) * (slope_ > 0.0 ? std::exp(-std::log1p(slope_ * pressure / modulus_) / slope_)
                                   : std::exp(-pressure / modulus_));
  const double absolute = pressure + atmosphere;
  const double air = air_ * std::exp(std::log(atmosphere / absolute) / exponent_);
  // Both are powers, so each derivative is the one before times a number over modulus or pressure.
  const double per_modulus = 1.0 / modulus, per_absolute = 1.0 / absolute, power = 1.0 / exponent_;
  const double liquid_1 = -liquid * per_modulus, air_1 = -air * power * per_absolute;
  const double liquid_2 = -liquid_1 * (1.0 + slope_) * per_modulus,
               air_2 = -air_1 * (1.0 + power) * per_absolute;
  const double liquid_3 = -liquid_2 * (1.0 + 2.0 * slope_) * per_modulus;
  const double air_3 = -air_2 * (2.0 + power) * per_absolute;
  // ∫v dp of both from 0: of a power, modulus or pressure times the value, but for the two that are
  // logarithms.
  const double liquid_work = slope_ == 1.0 ? (1.0 - air_) * modulus_ * std::log1p(pressure / modulus_)
                                           : (modulus * liquid - modulus_ * (1.0 - air_)) / (slope_ - 1.0);
  const double air_work = power == 1.0 ? air_ * atmosphere * std::log(absolute / atmosphere)
                                       : (absolute * air - atmosphere * air_) / (1.0 - power);
  return {pressure,         liquid + air,     liquid_1 + air_1,
          liquid_2 + air_2, liquid_3 + air_3, liquid_work + air_work};
}

Oil::Density Oil::density(double pressure) const {
  const Ratio v = volume_ratio(pressure);
  return {density_0_ / v.value, -density_0_ * v.slope / (v.value * v.value)};
}

double Oil::effective_modulus(double pressure) const {
  const Ratio v = volume_ratio(pressure);
  return -v.value / v.slope;
}

double Oil::enthalpy(double pressure) const { return enthalpy(volume_ratio(pressure), pressure); }

double Oil::enthalpy(const Ratio& near, double pressure) const {
  const double away = pressure - near.pressure;
  const double since =
      away * (near.value + away * (near.slope / 2.0 + away * (near.bend / 6.0 + away * near.twist / 24.0)));
  return (near.work + since) / density_0_;
}

double Oil::strain_energy(double pressure) const {
  return enthalpy(pressure) - pressure / density(pressure).value;
}

bool Oil::pressure_of(double mass, double volume, double wall, double guess, double& pressure) const {
  Ratio near = volume_ratio(std::max(guess, lowest));
  Density density;
  return state_of(mass, volume, wall, near, pressure, density);
}

bool Oil::state_of(double mass, double volume, double wall, Ratio& near, double& pressure,
                   Density& density) const {
  if (!(mass > 0.0) || !(volume > 0.0)) return false;
  // v(p)/v(0) − target − give·p is convex and falling: one root.
  const double full = density_0_ / mass, target = full * volume, give = full * wall;
  for (int i = 0; i < 60; ++i) {
    const double miss = near.value - target - give * near.pressure;
    const double per_slope = 1.0 / (near.slope - give), newton = -miss * per_slope;
    const double bent = near.bend * per_slope;  // the curve's bend over its slope
    if (std::abs(newton) <= within * (near.pressure + atmosphere)) {
      double away = newton * (1.0 - 0.5 * newton * bent);
      const double twisted = near.twist * per_slope;
      const double turned =
          away * (bent + 0.5 * away * twisted);  // share by which the slope has changed there
      away += (newton - away * (1.0 + away * (0.5 * bent + away * twisted / 6.0))) * (1.0 - turned);
      pressure = near.pressure + away;
      density.value = mass / (volume + wall * pressure);
      density.slope = -(near.slope + away * (near.bend + 0.5 * away * near.twist)) * density.value *
                      density.value / density_0_;
      return true;
    }
    const double away = newton / std::max(1.0 + 0.5 * newton * bent, 0.5);  // Halley's step
    // From the stiff side the first step may point far below vacuum: go a tenth of the way to it instead.
    near = volume_ratio(std::max(near.pressure + away, lowest + 0.1 * (near.pressure - lowest)));
  }
  return false;
}

}  // namespace poise
