// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

namespace poise {

/// How the strength of a tube's wall is reckoned. Codes differ: thin wall on the outer diameter (Barlow, the
/// most careful), thin wall on the bore, thick wall by Lamé.
enum class WallRule { outer_diameter, bore, thick };

/// The wall of a round tube under pressure inside. Lengths in m, pressures and stresses in Pa. Sources: thin
/// wall p = 2·t·S/D, Esposito, Fluid Power with Applications, 6th ed., ch. 10; thick wall by Lamé, e.g.
/// Bhavikatti, Strength of Materials, ch. 8.
struct TubeWall {
  double bore;
  double thickness;

  /// Pressure at which the wall's stress is `strength`.
  double pressure_at(double strength, WallRule rule) const {
    const double outer = bore + 2.0 * thickness;
    if (rule == WallRule::outer_diameter) return 2.0 * thickness * strength / outer;
    if (rule == WallRule::bore) return 2.0 * thickness * strength / bore;
    return strength * (outer * outer - bore * bore) / (outer * outer + bore * bore);
  }
  /// Stress around the tube at a diameter from bore to outer, by Lamé; greatest at the bore.
  double hoop_stress(double pressure, double diameter) const {
    const double outer = bore + 2.0 * thickness, inner_2 = bore * bore, outer_2 = outer * outer;
    return pressure * inner_2 / (outer_2 - inner_2) * (1.0 + outer_2 / (diameter * diameter));
  }
};

}  // namespace poise
