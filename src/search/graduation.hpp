// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

#include "search/open_value.hpp"
#include "units/units.hpp"

namespace poise::search {

/// How finely a setting is set; each further degree is finer.
inline constexpr int degrees = 4;

/// The step in which people set a value near this one, SI: of pressures half a division of the gauge, 5 bar
/// or 50 psi above 100 bar, 1 bar or 10 psi below; of needles a quarter turn; of everything else about 2 %
/// (common practice). Each degree is about half of the one before.
double set_step(double value, Quantity quantity, const units::World& world, int degree);

/// The settable value nearest to this one, SI.
double settable(double value, Quantity quantity, const units::World& world, int degree);

/// A settable value, or a size, as the job says it: "62.5 bar", "1.25 turns", "63 mm". Reads back as the
/// value.
std::string written(double value, Quantity quantity, const units::World& world);

}  // namespace poise::search
