// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <array>
#include <limits>

#include "job/draft.hpp"
#include "job/oil_table.hpp"
#include "job/value.hpp"

namespace poise {
namespace {

/// Kinematic viscosities of a grade, m2/s. At 40 °C the midpoints of ISO 3448. At 100 °C a mineral oil with a
/// viscosity index of about 100: 5.4 mm2/s of VG 32 from a printed worksheet, the others from memory.
struct Grade {
  double at_40, at_100;
};
constexpr std::array<std::string_view, 7> grade_words{"ISO VG 10", "ISO VG 15", "ISO VG 22", "ISO VG 32",
                                                      "ISO VG 46", "ISO VG 68", "ISO VG 100"};
constexpr std::array grades{
    Grade{10 * si::mm2_per_s, 2.6 * si::mm2_per_s},   Grade{15 * si::mm2_per_s, 3.4 * si::mm2_per_s},
    Grade{22 * si::mm2_per_s, 4.3 * si::mm2_per_s},   Grade{32 * si::mm2_per_s, 5.4 * si::mm2_per_s},
    Grade{46 * si::mm2_per_s, 6.8 * si::mm2_per_s},   Grade{68 * si::mm2_per_s, 8.7 * si::mm2_per_s},
    Grade{100 * si::mm2_per_s, 11.2 * si::mm2_per_s},
};
constexpr OilData usual{};

constexpr std::array table{
    Parameter{
        .name = "grade",
        .fallback = 4.0,
        .low = 0.0,
        .high = 6.0,
        .meaning = "viscosity grade; sets the viscosities at 40 and 100 °C",
        .source = "midpoints of ISO 3448; at 100 °C for a viscosity index of about 100, common practice",
        .words = grade_words},
    Parameter{.name = "viscosity_40",
              .quantity = Quantity::viscosity,
              .low = 2 * si::mm2_per_s,
              .high = 2000 * si::mm2_per_s,
              .meaning = "instead of grade: kinematic viscosity at 40 °C",
              .source = "the oil's datasheet",
              .optional = true},
    Parameter{.name = "viscosity_100",
              .quantity = Quantity::viscosity,
              .low = 1 * si::mm2_per_s,
              .high = 500 * si::mm2_per_s,
              .meaning = "goes with viscosity_40: kinematic viscosity at 100 °C",
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
              .meaning = "density at 15 °C without pressure",
              .source = "the oil's datasheet"},
    Parameter{.name = "expansivity",
              .quantity = Quantity::expansivity,
              .fallback = usual.expansivity,
              .low = 1e-4,
              .high = 2e-3,
              .meaning = "share of its density that the oil loses per kelvin"},
    Parameter{.name = "modulus",
              .quantity = Quantity::modulus,
              .fallback = usual.modulus,
              .low = 500e6,
              .high = 4e9,
              .meaning = "tangent bulk modulus of the oil without air and without pressure"},
    Parameter{.name = "modulus_slope",
              .fallback = usual.modulus_slope,
              .low = 0.0,
              .high = 20.0,
              .meaning = "growth of that modulus per growth of the pressure"},
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
};

}  // namespace

std::span<const Parameter> oil_parameters() { return table; }

namespace job {
namespace {

void set_viscosity(const Values& values, bool grade_given, Section& section, OilData& oil) {
  const bool at_40 = values.given("viscosity_40"), at_100 = values.given("viscosity_100");
  if (!at_40 && !at_100) {
    const Grade& grade = grades[values.word("grade")];
    oil.viscosity_40 = grade.at_40;
    oil.viscosity_100 = grade.at_100;
    return;
  }
  if (grade_given) {
    section.complain("grade", "the viscosity is given as well; state the grade or the viscosities, not both");
  } else if (at_40 != at_100) {
    section.complain(at_40 ? "viscosity_40" : "viscosity_100",
                     "viscosity_40 and viscosity_100 go together; state both, or a grade");
  } else if (values["viscosity_100"] >= values["viscosity_40"]) {
    section.complain("viscosity_100",
                     "oil is thinner at 100 °C than at 40 °C; viscosity_100 must be below viscosity_40");
  } else {
    oil.viscosity_40 = values["viscosity_40"];
    oil.viscosity_100 = values["viscosity_100"];
  }
}

}  // namespace

void read_oil(Draft& draft, Section& top) {
  const Node empty;
  const Node* node = top.table("oil");
  Section section(node ? *node : empty, "the oil", draft.remarks);
  std::vector<double> numbers;
  bool good = true;
  for (const Parameter& parameter : oil_parameters()) {
    numbers.push_back(parameter.fallback.value_or(std::numeric_limits<double>::quiet_NaN()));
    const Node* written = section.find(parameter.name);
    if (!written) continue;
    const auto value = read_value(*written, parameter, section.owner(), draft.job.world, draft.remarks);
    good = good && value;
    if (value) numbers.back() = *value;
  }
  section.text("note");
  section.refuse_unknown_keys();
  if (!good) return;
  const Values values(oil_parameters(), numbers);
  OilData& oil = draft.job.plan.oil;
  set_viscosity(values, section.has("grade"), section, oil);
  oil.temperature = values["temperature"];
  oil.density_15 = values["density"];
  oil.expansivity = values["expansivity"];
  oil.modulus = values["modulus"];
  oil.modulus_slope = values["modulus_slope"];
  oil.air = values["air"];
  oil.air_exponent = values["air_exponent"];
}

}  // namespace job
}  // namespace poise
