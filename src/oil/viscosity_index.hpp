// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>

namespace poise {

/// The viscosity index by ASTM D2270 / ISO 2909. All viscosities are kinematic, m2/s.

/// Viscosities at 40 °C of the two oils of comparison that have the same viscosity at 100 °C.
struct BasicValues {
  double low;   ///< L, of an oil with index 0
  double high;  ///< H, of an oil with index 100
};

/// Table 1 between 2 and 70 mm2/s, straight lines between its lines; the practice's formulas above. Below
/// 2 mm2/s, where the practice ends, a parabola through zero and the table's values at 2 and 3 mm2/s (own
/// continuation, for the thinnest grades).
BasicValues basic_values_at(double viscosity_100);

/// Index of an oil, not rounded: procedure A up to 100, procedure B above. Any positive viscosities;
/// procedure B means nothing below 2 mm2/s at 100 °C.
double viscosity_index(double viscosity_40, double viscosity_100);

/// Viscosity at 100 °C of an oil of this index, solved to the last digits; none where an index above 100
/// would need less than 2 mm2/s.
std::optional<double> viscosity_100_of(double viscosity_40, double index);

}  // namespace poise
