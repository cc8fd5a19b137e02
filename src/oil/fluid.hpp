// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <string_view>

#include "oil/oil.hpp"

namespace poise {

/// What a kind of hydraulic fluid is usually like where its datasheet says nothing; the meanings and units
/// are those of OilData.
struct Fluid {
  std::string_view word;
  double density_15, expansivity, modulus, modulus_slope, viscosity_index, heat_capacity,
      pressure_viscosity_coefficient;
};

/// Mineral oil: as OilData says. Index 100: common practice.
inline constexpr Fluid mineral_oil{"mineral oil",           OilData{}.density_15,
                                   OilData{}.expansivity,   OilData{}.modulus,
                                   OilData{}.modulus_slope, 100.0,
                                   OilData{}.heat_capacity, OilData{}.pressure_viscosity_coefficient};

inline constexpr std::array fluids{
    mineral_oil,
    // HFC of ISO 6743-4. Modulus 500,000 psi, the figure of textbooks (from memory); coefficient 3.5e-4 1/bar
    // of Vacca and Franzoni as above; density, expansivity, slope, index and heat capacity from memory.
    Fluid{"water glycol", 1080.0, 7.0e-4, 3.45e9, 6.0, 200.0, 3200.0, 3.5e-9},
    // HEES of ISO 15380. Compressibility and expansivity of esters are close to those of mineral oil
    // (T. Regueira, L. Lugo, J. Fernández, Industrial & Engineering Chemistry Research 53 (2014)); density,
    // index, heat capacity and coefficient from memory.
    Fluid{"biodegradable ester", 920.0, OilData{}.expansivity, OilData{}.modulus, OilData{}.modulus_slope,
          150.0, 2000.0, 1.5e-8},
};

}  // namespace poise
