// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "oil/viscosity.hpp"

namespace poise {

/// What the oil is made of, as its datasheet gives it.
struct OilData {
  double viscosity_40 = 46e-6;          ///< kinematic viscosity at 40 °C, m2/s
  double viscosity_100 = 6.7603604e-6;  ///< kinematic viscosity at 100 °C, m2/s; below viscosity_40 (here
                                        ///< that of viscosity index 100, ISO 2909)
  double density_15 = 870.0;            ///< kg/m3 at 15 °C and p = 0
  double expansivity = 6.5e-4;  ///< fall of density with temperature, 1/K (common practice for mineral oil)
  double modulus = 1.6e9;       ///< tangent modulus K0 at p = 0, Pa
  double modulus_slope = 9.0;   ///< m in K(p) = K0 + m·p (Murnaghan)
  double air = 0.005;           ///< entrained air by volume at p = 0; never below 1e-5
  double air_exponent = 1.4;    ///< polytropic exponent of that air, 1 (slow) to 1.4 (fast)
  double temperature = 313.15;  ///< K, the same everywhere in the circuit
  /// J/(kg·K): c = (0.388 + 0.00045·t)/√d Btu/(lb·°F), t = 104 °F, d = 0.87 (C. S. Cragoe, Bureau of
  /// Standards Miscellaneous Publication 97, 1929; formula from memory)
  double heat_capacity = 1950.0;
  PressureViscosity pressure_viscosity = PressureViscosity::none;
  /// 1/Pa, counts where pressure_viscosity is not none (1.7e-3 1/bar for mineral oil: A. Vacca, G. Franzoni,
  /// Hydraulic Fluid Power, Wiley 2021, eq. 2.21)
  double pressure_viscosity_coefficient = 1.7e-8;
};

/// Oil at one temperature: a mixture of liquid and a little entrained air that conserves mass at any pressure
/// above absolute zero. Pressures are gauge, Pa. Laws: Walther (ASTM D341) for viscosity and, if asked for,
/// its growth with pressure; Murnaghan for the liquid; polytropic air (Merritt; Wylie & Streeter). v(p)/v(0)
/// = (1−α)·(1 + m·p/K0)^(−1/m) + α·(p_atm/(p + p_atm))^(1/n).
class Oil {
 public:
  explicit Oil(const OilData& data);

  /// Density and its slope at one pressure: kg/m3 and kg/(m3·Pa).
  struct Density {
    double value;
    double slope;
  };
  Density density(double pressure) const;
  double density_at_zero() const { return density_0_; }
  /// True expansion at p = 0, −(dρ/dT)/ρ, 1/K.
  double expansion() const { return expansion_; }
  /// Effective modulus K_e = ρ/(dρ/dp), Pa: by definition, from the mixture itself.
  double effective_modulus(double pressure) const;
  /// ∫ dp/ρ from 0 to the pressure, J/kg: what a kilogram carries through a restriction.
  double enthalpy(double pressure) const;
  /// Strain energy of a kilogram, h − p/ρ, J/kg.
  double strain_energy(double pressure) const;
  /// Kinematic viscosity at p = 0, m2/s.
  double viscosity() const { return viscosity_.at_zero(); }
  /// Kinematic viscosity at a pressure with its slope.
  Viscosity::Here viscosity(double pressure) const { return viscosity_.at(pressure); }
  /// The same as something a law can keep.
  const Viscosity& viscosity_law() const { return viscosity_; }
  double temperature() const { return temperature_; }  ///< K
  /// Specific heat capacity, J/(kg·K), the same at every temperature and pressure.
  double heat_capacity() const { return heat_capacity_; }

  /// Pressure of `mass` kg in a space of `volume` + `wall`·p m3, solved to the last digits from any start
  /// `guess`. Returns false, pressure untouched, if there is no such pressure (mass or volume not positive).
  bool pressure_of(double mass, double volume, double wall, double guess, double& pressure) const;
  /// v(p)/v(0) at one pressure with its first three derivatives: the oil near that pressure.
  struct Ratio {
    double pressure;
    double value, slope, bend, twist;
    double work;  ///< ∫v(p)/v(0)·dp from 0
  };
  Ratio volume_ratio(double pressure) const;
  /// Enthalpy at a pressure close to one that is known.
  double enthalpy(const Ratio& near, double pressure) const;
  /// The same with the density there. `near` is where the oil was last known, kept from one call to the next:
  /// only a pressure further off costs logarithms.
  bool state_of(double mass, double volume, double wall, Ratio& near, double& pressure,
                Density& density) const;

 private:
  double density_0_, expansion_;
  Viscosity viscosity_;
  double modulus_, slope_, air_, exponent_;
  double heat_capacity_, temperature_;
};

/// A point of an oil's viscosity curve: kinematic viscosity, m2/s, at a temperature, K.
struct ViscosityPoint {
  double viscosity;
  double temperature;
};
/// Kinematic viscosity by Walther, log10 log10(ν + 0.7) = A − B·log10 T with ν in mm2/s (ASTM D341; good from
/// 2 mm2/s up, some percent off at 1 mm2/s), fixed by two points of different temperatures.
double walther_viscosity(const ViscosityPoint& one, const ViscosityPoint& other, double temperature);
/// The same, fixed by the values at 40 and 100 °C.
double walther_viscosity(double viscosity_40, double viscosity_100, double temperature);

}  // namespace poise
