# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""Oil with a little air: density, compressibility and viscosity. SI; pressures are gauge."""
import math

ATMOSPHERE = 101325.0


def walther(nu_40, nu_100, kelvin):
    """Kinematic viscosity in m2/s, fixed by two of its values (ASTM D341)."""
    def ordinate(nu):
        return math.log10(math.log10(nu * 1e6 + 0.7))

    low, high = math.log10(313.15), math.log10(373.15)
    slope = (ordinate(nu_40) - ordinate(nu_100)) / (high - low)
    return (10.0 ** 10.0 ** (ordinate(nu_40) - slope * (math.log10(kelvin) - low)) - 0.7) * 1e-6


class Oil:
    """Murnaghan's liquid, K(p) = K0 + m·p, and polytropic air (Merritt; Wylie and Streeter).

    v(p)/v(0) = (1 − α)·(1 + m·p/K0)^(−1/m) + α·(p_atm/(p + p_atm))^(1/n). Defaults are those of `poise parts oil`.
    """

    def __init__(self, *, viscosity_40, viscosity_100, temperature=313.15, density=870.0, expansivity=6.5e-4,
                 modulus=1.6e9, modulus_slope=9.0, air=0.005, air_exponent=1.4):
        self.rho_0 = density * (1.0 - expansivity * (temperature - 288.15))
        self.nu = walther(viscosity_40, viscosity_100, temperature)
        self.modulus, self.slope, self.air, self.exponent = modulus, modulus_slope, air, air_exponent

    def at(self, p):
        """Density, kg/m3, and 1/K_e = −(dv/dp)/v, 1/Pa, at one pressure."""
        m = self.slope
        if m > 0.0:
            squeeze = 1.0 + m * p / self.modulus
            liquid = (1.0 - self.air) * squeeze ** (-1.0 / m)
            liquid_slope = liquid / (self.modulus * squeeze)
        else:
            liquid = (1.0 - self.air) * math.exp(-p / self.modulus)
            liquid_slope = liquid / self.modulus
        air = self.air * (ATMOSPHERE / (p + ATMOSPHERE)) ** (1.0 / self.exponent)
        v = liquid + air
        return self.rho_0 / v, (liquid_slope + air / (self.exponent * (p + ATMOSPHERE))) / v
