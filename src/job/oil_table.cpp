// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/oil_table.hpp"

#include <algorithm>
#include <array>

#include "oil/fluid.hpp"
#include "oil/viscosity_grade.hpp"

namespace poise {
namespace {

template <std::size_t N, class Entry>
constexpr std::array<std::string_view, N> words_of(const std::array<Entry, N>& table) {
  std::array<std::string_view, N> words;
  for (std::size_t i = 0; i < N; ++i) words[i] = table[i].word;
  return words;
}
constexpr auto grade_words = words_of(viscosity_grades);
constexpr double usual_grade = 8.0;  // VG 46
static_assert(viscosity_grades[8].midpoint == OilData{}.viscosity_40);
constexpr auto fluid_words = [] {
  std::array<std::string_view, fluids.size() + 1> words;
  for (std::size_t i = 0; i < fluids.size(); ++i) words[i] = fluids[i].word;
  words.back() = "custom";
  return words;
}();
/// In the order of PressureViscosity.
constexpr std::array<std::string_view, 3> pressure_viscosity_words{"none", "Barus", "Roelands"};
constexpr OilData usual{};

constexpr std::array table{
    Parameter{.name = "fluid",
              .fallback = 0.0,
              .low = 0.0,
              .high = fluids.size(),
              .meaning = "what is in the circuit: sets the defaults below that depend on the fluid; a custom "
                         "fluid has none, so that each of them must be given",
              .source = "ISO 6743-4 HM, HV (mineral oil), HFC (water glycol), HEES (biodegradable ester)",
              .words = fluid_words},
    Parameter{.name = "grade",
              .fallback = usual_grade,
              .low = 0.0,
              .high = viscosity_grades.size() - 1,
              .meaning = "viscosity grade; sets the viscosity at 40 °C",
              .source = "midpoints of ISO 3448; an oil may lie 10 % to either side",
              .words = grade_words},
    Parameter{.name = "viscosity_40",
              .quantity = Quantity::viscosity,
              .low = 2 * si::mm2_per_s,
              .high = 2000 * si::mm2_per_s,
              .meaning = "instead of grade: kinematic viscosity at 40 °C",
              .source = "the oil's datasheet",
              .optional = true},
    Parameter{.name = "viscosity_index",
              .fallback = mineral_oil.viscosity_index,
              .low = 0.0,
              .high = 400.0,
              .meaning = "goes with grade or viscosity_40: sets the viscosity at 100 °C (default that of the "
                         "fluid, here of mineral oil)",
              .source = "ISO 2909 = ASTM D2270; the oil's datasheet"},
    Parameter{.name = "viscosity_100",
              .quantity = Quantity::viscosity,
              .low = 0.5 * si::mm2_per_s,
              .high = 500 * si::mm2_per_s,
              .meaning = "goes with viscosity_40, instead of viscosity_index: kinematic viscosity at 100 °C",
              .source = "the oil's datasheet",
              .optional = true},
    Parameter{.name = "temperature",
              .quantity = Quantity::temperature,
              .fallback = usual.temperature,
              .low = si::zero_celsius - 40.0,
              .high = si::zero_celsius + 120.0,
              .meaning = "temperature of the oil, the same everywhere"},
    Parameter{.name = "density",
              .quantity = Quantity::density,
              .fallback = usual.density_15,
              .low = 700.0,
              .high = 1300.0,
              .meaning = "density at 15 °C without pressure (default that of the fluid, here of mineral oil)",
              .source = "the oil's datasheet"},
    Parameter{
        .name = "expansivity",
        .quantity = Quantity::expansivity,
        .fallback = usual.expansivity,
        .low = 1e-4,
        .high = 2e-3,
        .meaning = "share of its density at 15 °C that the oil loses per kelvin (default that of the fluid)"},
    Parameter{.name = "modulus",
              .quantity = Quantity::modulus,
              .fallback = usual.modulus,
              .low = 500e6,
              .high = 4e9,
              .meaning =
                  "tangent bulk modulus of the oil without air and without pressure (default that of the "
                  "fluid)"},
    Parameter{.name = "modulus_slope",
              .fallback = usual.modulus_slope,
              .low = 0.0,
              .high = 20.0,
              .meaning = "growth of that modulus per growth of the pressure (default that of the fluid)"},
    Parameter{.name = "air",
              .quantity = Quantity::share,
              .fallback = usual.air,
              .low = 1e-5,
              .high = 0.2,
              .meaning = "entrained air by volume without pressure; oil always has some"},
    Parameter{.name = "air_exponent",
              .fallback = usual.air_exponent,
              .low = 1.0,
              .high = 1.4,
              .meaning = "polytropic exponent of that air: 1 slow to 1.4 fast changes"},
    Parameter{.name = "heat_capacity",
              .quantity = Quantity::heat_capacity,
              .fallback = usual.heat_capacity,
              .low = 1000.0,
              .high = 4500.0,
              .meaning = "specific heat capacity (default that of the fluid, here of mineral oil at 40 °C)",
              .source = "C. S. Cragoe, Bureau of Standards Miscellaneous Publication 97 (1929); formula from "
                        "memory"},
    Parameter{.name = "pressure_viscosity",
              .fallback = 0.0,
              .low = 0.0,
              .high = 2.0,
              .meaning = "law by which oil thickens under pressure; lines and sharp-edged openings then take "
                         "the viscosity of their upstream side, datasheet points stay as stated",
              .source = "C. Barus (1893); C. J. A. Roelands (1966) in the form of L. Houpert, Journal of "
                        "Tribology 107 (1985) 241",
              .words = pressure_viscosity_words},
    Parameter{.name = "pressure_viscosity_coefficient",
              .quantity = Quantity::per_pressure,
              .fallback = usual.pressure_viscosity_coefficient,
              .low = 1e-10,
              .high = 1e-7,
              .meaning = "goes with Barus or Roelands: share by which the dynamic viscosity grows per growth "
                         "of pressure, at p = 0 (default that of the fluid, here of mineral oil)",
              .source = "A. Vacca, G. Franzoni, Hydraulic Fluid Power (Wiley 2021), eq. 2.21"},
};

}  // namespace

std::span<const Parameter> oil_parameters() { return table; }

std::span<const Parameter> loose_oil_parameters() {
  static const auto lines = [] {
    std::array<Parameter, loose_oil.size()> found;
    for (std::size_t i = 0; i < found.size(); ++i) {
      found[i] = *std::ranges::find(table, loose_oil[i].line, &Parameter::name);
      found[i].name = loose_oil[i].name;
    }
    return found;
  }();
  return lines;
}

}  // namespace poise
