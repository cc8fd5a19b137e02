// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <array>

#include "units/catalogue.hpp"

namespace poise::units {
namespace {

// Every symbol is written down, and no general prefixes are declared: "mPa" for MPa, "cin" or "mt" would
// otherwise be read in silence as something nobody meant. Factors are exact definitions (NIST Special
// Publication 811, Appendix B) except mercury, whose conventional values that appendix gives with seven
// figures.
constexpr std::array table = {
    Symbol{"m", ""},
    Symbol{"kg", ""},
    Symbol{"s", ""},
    Symbol{"K", ""},
    // Angles and counts are dimensions here, so that cm3 is no displacement and a share no angle.
    Symbol{"rad", ""},
    Symbol{"rev", ""},
    Symbol{"stroke", ""},
    Symbol{"turn", ""},

    Symbol{"%", "0.01"},

    Symbol{"km", "1000 m"},
    Symbol{"dm", "0.1 m"},
    Symbol{"cm", "0.01 m"},
    Symbol{"mm", "0.001 m"},
    Symbol{"um", "1e-6 m"},
    Symbol{"in", "0.0254 m"},
    Symbol{"inch", "in"},
    Symbol{"inches", "in"},
    Symbol{"ft", "12 in"},
    Symbol{"yd", "36 in"},

    Symbol{"L", "0.001 m3"},
    Symbol{"l", "L"},
    Symbol{"mL", "1e-6 m3"},
    Symbol{"ml", "mL"},
    Symbol{"cc", "1e-6 m3"},
    Symbol{"gal", "231 in3"},  // US liquid gallon; the imperial one is a fifth larger and has no symbol here

    Symbol{"ms", "0.001 s"},
    Symbol{"min", "60 s"},
    Symbol{"h", "3600 s"},
    Symbol{"hr", "h"},
    Symbol{"sec", "s"},
    Symbol{"Hz", "1/s"},

    Symbol{"g", "0.001 kg"},
    Symbol{"t", "1000 kg"},
    Symbol{"tonne", "t"},
    Symbol{"tonnes", "t"},
    Symbol{"lb", "0.45359237 kg"},
    Symbol{"lbs", "lb"},
    Symbol{"ton_us", "2000 lb"},
    Symbol{"USton", "ton_us"},

    Symbol{"N", "kg m/s2"},
    Symbol{"daN", "10 N"},
    Symbol{"kN", "1000 N"},
    Symbol{"MN", "1e6 N"},
    Symbol{"kgf", "9.80665 N"},
    Symbol{"kp", "kgf"},
    Symbol{"lbf", "0.45359237 kgf"},
    Symbol{"kip", "1000 lbf"},

    Symbol{"Pa", "N/m2"},
    Symbol{"hPa", "100 Pa"},
    Symbol{"kPa", "1000 Pa"},
    Symbol{"MPa", "1e6 Pa"},
    Symbol{"GPa", "1e9 Pa"},
    Symbol{"bar", "1e5 Pa"},
    Symbol{"mbar", "100 Pa"},
    Symbol{"psi", "lbf/in2"},
    Symbol{"PSI", "psi"},
    Symbol{"ksi", "1000 psi"},
    Symbol{"atm", "101325 Pa"},
    Symbol{"mmHg", "133.3224 Pa"},
    Symbol{"inHg", "3386.389 Pa"},

    Symbol{"J", "N m"},
    Symbol{"kJ", "1000 J"},
    Symbol{"MJ", "1e6 J"},
    Symbol{"W", "J/s"},
    Symbol{"kW", "1000 W"},
    Symbol{"MW", "1e6 W"},
    Symbol{"Wh", "W h"},
    Symbol{"BTU", "1055.05585262 J"},  // of the International Table; exact
    Symbol{"kWh", "kW h"},
    Symbol{"hp", "550 ft lbf/s"},
    Symbol{"PS", "75 kgf m/s"},

    Symbol{"St", "1e-4 m2/s"},
    Symbol{"cSt", "1e-6 m2/s"},
    Symbol{"cP", "0.001 Pa s"},

    Symbol{"degC", "K @ 273.15"},
    Symbol{"degR", "K/1.8"},
    Symbol{"degF", "degR @ 459.67"},

    Symbol{"deg", "0.017453292519943295 rad"},
    Symbol{"degree", "deg"},
    Symbol{"degrees", "deg"},
    Symbol{"revs", "rev"},
    Symbol{"strokes", "stroke"},
    Symbol{"turns", "turn"},
    Symbol{"rpm", "rev/min"},
    Symbol{"RPM", "rpm"},

    // Spoken as one word on pumps and datasheets (common practice).
    Symbol{"gpm", "gal/min"},
    Symbol{"GPM", "gpm"},
    Symbol{"lpm", "L/min"},
};

}  // namespace

std::span<const Symbol> symbols() { return table; }

}  // namespace poise::units
