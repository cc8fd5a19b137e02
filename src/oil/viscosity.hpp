// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

namespace poise {

/// How the dynamic viscosity η of the liquid grows with pressure, α being its share per pressure at p = 0.
enum class PressureViscosity {
  none,      ///< the kinematic viscosity is the same at every pressure
  barus,     ///< η = η0·exp(α·p), C. Barus, American Journal of Science 45 (1893) 87
  roelands,  ///< η = η0·exp((ln η0 + 9.67)·((1 + p/1.962e8)^z − 1)): see roelands_exponent
};

/// Roelands' z so that both laws start with the same slope: z = α·1.962e8/(ln η0 + 9.67), Pa and Pa·s; at
/// least 6.4e-5 Pa·s. Form of L. Houpert, Journal of Tribology 107 (1985) 241, of C. J. A. Roelands' law
/// (Delft, 1966); read in secondary texts.
double roelands_exponent(double coefficient, double dynamic_viscosity);

/// Kinematic viscosity ν = η/ρ of the liquid at one temperature and any pressure: thickened by pressure, ρ by
/// Murnaghan.
class Viscosity {
 public:
  /// A plain number is a viscosity, m2/s, that no pressure changes.
  Viscosity(double constant)  // NOLINT(google-explicit-constructor): as said
      : at_zero_(constant) {}
  /// `exponent`: Roelands' z, or 1 for Barus. Modulus and its slope are those of the liquid, as in OilData.
  Viscosity(double at_zero, double coefficient, double exponent, double modulus, double modulus_slope)
      : at_zero_(at_zero),
        coefficient_(coefficient),
        exponent_(exponent),
        modulus_(modulus),
        modulus_slope_(modulus_slope) {}

  double at_zero() const { return at_zero_; }
  /// Whether the pressure makes no difference.
  bool constant() const { return coefficient_ == 0.0; }

  struct Here {
    double value;  ///< m2/s
    double slope;  ///< m2/(s·Pa)
  };
  /// At a gauge pressure above absolute zero.
  Here at(double pressure) const;

 private:
  double at_zero_;
  double coefficient_ = 0.0, exponent_ = 1.0, modulus_ = 1.0, modulus_slope_ = 0.0;
};

}  // namespace poise
