// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <array>
#include <cstddef>

#include "units/catalogue.hpp"
#include "units/units.hpp"

namespace poise::units {
namespace {

using enum Quantity;

constexpr std::array kind_table = {
    Kind{none, "plain number", "2.5", "1", "", "", ""},
    Kind{share, "share", "35 %", "1", "%", "%", "%"},
    Kind{pressure, "pressure", "210 bar", "Pa", "bar", "psi",
         "bar,psi,MPa,kPa,Pa,mbar,kgf/cm2,inHg,mmHg,N/mm2,ksi"},
    Kind{modulus, "modulus", "1600 MPa", "Pa", "MPa", "psi", "MPa,GPa,psi,bar,N/mm2,ksi,kPa,Pa"},
    Kind{flow, "flow", "2.5 L/min", "m3/s", "L/min", "in3/min",
         "L/min,in3/min,gpm,cm3/min,cm3/s,gal/min,m3/h,L/s,mL/min,in3/s,cc/min,m3/s"},
    Kind{force, "force", "25 kN", "N", "kN", "lbf", "kN,lbf,N,t,kgf,daN,MN,ton_us,kip,kg,lb"},
    Kind{mass, "mass", "450 kg", "kg", "kg", "lb", "kg,lb,t,g,ton_us"},
    Kind{length, "length", "150 mm", "m", "mm", "in", "mm,in,m,cm,ft,um,dm,km,yd"},
    Kind{area, "area", "12.6 cm2", "m2", "cm2", "in2", "cm2,in2,mm2,m2,ft2"},
    Kind{volume, "volume", "8 L", "m3", "cm3", "in3", "L,in3,cm3,gal,mL,cc,m3,mm3,dm3,ft3"},
    Kind{speed, "speed", "3 mm/s", "m/s", "mm/s", "in/s",
         "mm/s,in/s,m/s,mm/min,m/min,in/min,ft/s,ft/min,cm/s"},
    Kind{time, "time", "2.5 s", "s", "s", "s", "s,min,ms,h"},
    Kind{temperature, "temperature", "40 degC", "K", "degC", "degF", "degC,degF,K"},
    Kind{viscosity, "kinematic viscosity", "46 cSt", "m2/s", "mm2/s", "cSt", "cSt,mm2/s,St,m2/s"},
    Kind{density, "density", "870 kg/m3", "kg/m3", "kg/m3", "lb/ft3",
         "kg/m3,lb/ft3,g/cm3,kg/L,lb/gal,lb/in3,kg/dm3"},
    Kind{displacement, "displacement", "7.8 cm3/rev", "m3/rev", "cm3/rev", "in3/rev",
         "cm3/rev,in3/rev,cc/rev,mL/rev,L/rev"},
    Kind{stroke_volume, "volume per stroke", "12 cm3/stroke", "m3/stroke", "cm3/stroke", "in3/stroke",
         "cm3/stroke,in3/stroke,cc/stroke,mL/stroke"},
    Kind{rotation, "speed of rotation", "1450 rpm", "rev/s", "rpm", "rpm", "rpm,rev/min,1/min,rev/s"},
    Kind{stroke_rate, "rate of strokes", "30 strokes/min", "stroke/s", "strokes/min", "strokes/min",
         "strokes/min,1/min,strokes/s"},
    Kind{turns, "number of turns", "2 turns", "turn", "turns", "turns", "turns,turn"},
    Kind{angle, "angle", "30 deg", "rad", "deg", "deg", "deg,rad"},
    Kind{spring_rate, "spring rate", "25 N/mm", "N/m", "N/mm", "lbf/in", "N/mm,lbf/in,N/m,kN/m,kN/mm,lbf/ft"},
    Kind{damping, "damping", "400 N s/m", "N s/m", "N s/m", "lbf s/in", "N s/m,lbf s/in,kN s/m,lbf s/ft"},
    Kind{expansion, "expansion per length of hose", "0.02 cm3/(m bar)", "m3/(m Pa)", "cm3/(m bar)",
         "in3/(ft psi)", "cm3/(m bar),in3/(ft psi),cm3/m/bar,in3/ft/psi"},
    Kind{expansivity, "thermal expansion", "7e-4 1/K", "1/K", "1/K", "1/degF", "1/K,1/degC,1/degF"},
    Kind{heat_capacity, "specific heat capacity", "1900 J/(kg K)", "J/(kg K)", "J/(kg K)", "BTU/(lb degF)",
         "J/(kg K),kJ/(kg K),BTU/(lb degF),J/kg/K,kJ/kg/K,BTU/lb/degF"},
    Kind{per_pressure, "growth per pressure", "0.022 1/MPa", "1/Pa", "1/MPa", "1/psi",
         "1/MPa,1/psi,1/bar,1/GPa,1/Pa"},
    Kind{power, "power", "5.5 kW", "W", "kW", "hp", "kW,hp,W,MW,PS"},
    Kind{energy, "energy", "500 J", "J", "J", "ft lbf", "J,kJ,ft lbf,MJ,Wh,kWh,in lbf"},
    Kind{torque, "torque", "40 N m", "N m", "N m", "lbf ft", "N m,lbf ft,lbf in,kN m"},
    Kind{inertia, "moment of inertia", "0.02 kg m2", "kg m2", "kg m2", "lb ft2", "kg m2,lb ft2,lb in2"},
    Kind{rate_of_turning, "rate of turning", "0.2 rad/s", "rad/s", "rad/s", "rad/s", "rad/s,deg/s"},
    Kind{warming, "difference of temperatures", "25 K", "K", "K", "K", "K"},
    Kind{conductance, "heat passed per kelvin", "15 W/K", "W/K", "W/K", "W/K", "W/K,kW/K"},
};
static_assert(kind_table.size() == quantity_count);
static_assert([] {
  for (std::size_t i = 0; i < kind_table.size(); ++i)
    if (static_cast<std::size_t>(kind_table[i].quantity) != i) return false;
  return true;
}());

constexpr std::array foreign_table = {
    ForeignKind{"dynamic viscosity", "Pa s"},
    ForeignKind{"acceleration", "m/s2"},
    ForeignKind{"frequency", "1/s"},
    ForeignKind{"mass flow", "kg/s"},
    ForeignKind{"rate of pressure", "Pa/s"},
    ForeignKind{"number of revolutions", "rev"},
    ForeignKind{"number of strokes", "stroke"},
};

}  // namespace

std::span<const Kind> kinds() { return kind_table; }
const Kind& kind(Quantity quantity) { return kind_table.at(static_cast<std::size_t>(quantity)); }
std::span<const ForeignKind> foreign_kinds() { return foreign_table; }

std::string_view name(Quantity quantity) { return kind(quantity).name; }
std::string_view example(Quantity quantity) { return kind(quantity).example; }

}  // namespace poise::units
