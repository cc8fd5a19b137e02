// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <vector>

#include "draw/sheet.hpp"
#include "units/units.hpp"

namespace poise::draw {

/// A colour by how it looks: lightness 0…1, green to red, blue to yellow. Equal distances look equally
/// different (B. Ottosson, "A perceptual color space for image processing", 2020).
struct Oklab {
  double lightness = 0.0, a = 0.0, b = 0.0;
};
Oklab oklab_of(const Colour& colour);
/// The nearest colour that a screen has.
Colour colour_of(const Oklab& look);

/// The colour of a pressure that is this share of the scale's top: from a light blue at 0 to a dark wine red
/// at 1 on a straight line between them, ever darker, so that it reads in grey and for every kind of sight.
Colour colour_of(double share);

/// A scale of pressures for the legend, Pa: from 0 in round steps of the job's unit to a round top.
struct PressureScale {
  double top = 0.0;
  std::vector<double> steps;  ///< from 0 to the top

  Colour at(double pressure) const { return colour_of(top > 0.0 ? pressure / top : 0.0); }
};

/// The shortest such scale with no more than six steps that reaches the pressure. A circuit at rest is not
/// shown in the colours of high pressure: the scale reaches to 10 bar at least.
PressureScale scale_up_to(double highest, const units::World& world);

}  // namespace poise::draw
