// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <numbers>

namespace poise {

/// What a number measures. Inside the house every number is SI (gauge pressures in Pa, angles in rad,
/// speeds of shafts in rev/s, displacements in m3/rev, temperatures in K); a Quantity says how people read
/// and write it.
enum class Quantity {
  none,             ///< a bare number: counts, coefficients, exponents
  share,            ///< a part of a whole, 1 = 100 %
  pressure,         ///< Pa, gauge
  modulus,          ///< Pa, a stiffness of oil or steel
  flow,             ///< m3/s
  force,            ///< N
  mass,             ///< kg
  length,           ///< m
  area,             ///< m2
  volume,           ///< m3
  speed,            ///< m/s
  time,             ///< s
  temperature,      ///< K
  viscosity,        ///< m2/s, kinematic
  density,          ///< kg/m3
  displacement,     ///< m3/rev
  stroke_volume,    ///< m3 per stroke
  rotation,         ///< rev/s
  stroke_rate,      ///< strokes/s
  turns,            ///< turns of an adjusting screw
  angle,            ///< rad
  spring_rate,      ///< N/m
  damping,          ///< N/(m/s)
  expansion,        ///< m3/Pa per metre of hose
  expansivity,      ///< 1/K
  heat_capacity,    ///< J/(kg·K), of a kilogram
  per_pressure,     ///< 1/Pa, growth per pressure
  power,            ///< W
  energy,           ///< J
  torque,           ///< N m
  inertia,          ///< kg m2
  rate_of_turning,  ///< rad/s
  warming,          ///< K, a difference of temperatures
  conductance,      ///< W/K, heat that passes per difference of temperatures
};

/// Unit constants for defaults and ranges in the parts' tables: `200 * si::bar` reads as a datasheet does.
namespace si {
inline constexpr double bar = 1e5;
inline constexpr double atmosphere = 101325.0;
inline constexpr double mm = 1e-3;
inline constexpr double micrometre = 1e-6;
inline constexpr double mm2 = 1e-6;
inline constexpr double cm2 = 1e-4;
inline constexpr double cm3 = 1e-6;
inline constexpr double litre = 1e-3;
inline constexpr double litre_per_minute = 1e-3 / 60.0;
inline constexpr double cm3_per_minute = 1e-6 / 60.0;
inline constexpr double kN = 1e3;
inline constexpr double ms = 1e-3;
inline constexpr double per_minute = 1.0 / 60.0;
inline constexpr double percent = 0.01;
inline constexpr double mm2_per_s = 1e-6;
inline constexpr double gravity = 9.80665;  ///< m/s2, standard gravity
inline constexpr double zero_celsius = 273.15;
inline constexpr double degree = std::numbers::pi / 180.0;
}  // namespace si

}  // namespace poise
