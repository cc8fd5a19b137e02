// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <array>
#include <limits>

#include "job/draft.hpp"
#include "job/oil_table.hpp"
#include "job/tolerance.hpp"
#include "job/value.hpp"
#include "oil/fluid.hpp"
#include "oil/viscosity_grade.hpp"
#include "oil/viscosity_index.hpp"

namespace poise::job {
namespace {

/// What of the oil has its usual value by the fluid.
struct ByFluid {
  std::string_view key;
  double Fluid::*usual;
  double OilData::*field;
};
constexpr std::array by_fluid{
    ByFluid{"density", &Fluid::density_15, &OilData::density_15},
    ByFluid{"expansivity", &Fluid::expansivity, &OilData::expansivity},
    ByFluid{"modulus", &Fluid::modulus, &OilData::modulus},
    ByFluid{"modulus_slope", &Fluid::modulus_slope, &OilData::modulus_slope},
    ByFluid{"heat_capacity", &Fluid::heat_capacity, &OilData::heat_capacity},
};
constexpr ByFluid thickening{"pressure_viscosity_coefficient", &Fluid::pressure_viscosity_coefficient,
                             &OilData::pressure_viscosity_coefficient};

/// The oil's table as it is read; `fluid` is none for a custom one.
struct Sheet {
  const Values& values;
  Section& section;
  const Fluid* fluid;

  void set(const ByFluid& each, OilData& oil) const {
    if (section.has(each.key))
      oil.*each.field = values[each.key];
    else if (fluid)
      oil.*each.field = fluid->*each.usual;
    else
      section.complain(fmt::format("needs {}, since its fluid is custom", each.key));
  }
};

/// The key that does not go with the others on viscosity, and why; an empty sentence if all is well.
Mismatch viscosity_mismatch(const Sheet& sheet) {
  const auto given = [&](std::string_view key) { return sheet.section.has(key); };
  if (given("grade") && (given("viscosity_40") || given("viscosity_100")))
    return {"grade", "the viscosity is given as well; state the grade or the viscosities, not both"};
  if (given("viscosity_100")) {
    if (!given("viscosity_40")) return {"viscosity_100", "goes with viscosity_40; state both, or a grade"};
    if (given("viscosity_index"))
      return {"viscosity_index", "follows from viscosity_40 and viscosity_100; leave out one of the three"};
    if (sheet.values["viscosity_100"] >= sheet.values["viscosity_40"])
      return {"viscosity_100",
              "oil is thinner at 100 °C than at 40 °C; viscosity_100 must be below viscosity_40"};
  } else if (given("viscosity_40") && !given("viscosity_index")) {
    return {"viscosity_40", "state viscosity_100 or viscosity_index as well, or a grade alone"};
  }
  return {};
}

void set_viscosity(const Sheet& sheet, OilData& oil) {
  if (const Mismatch wrong = viscosity_mismatch(sheet); !wrong.sentence.empty())
    return sheet.section.complain(wrong.parameter, wrong.sentence);
  const bool by_grade = !sheet.values.given("viscosity_40");
  oil.viscosity_40 = by_grade
                         ? viscosity_grades[static_cast<std::size_t>(sheet.values.word("grade"))].midpoint
                         : sheet.values["viscosity_40"];
  if (sheet.values.given("viscosity_100")) {
    oil.viscosity_100 = sheet.values["viscosity_100"];
    return;
  }
  const bool index_given = sheet.section.has("viscosity_index");
  if (!index_given && !sheet.fluid)
    return sheet.section.complain("needs viscosity_index, since its fluid is custom");
  const double index = index_given ? sheet.values["viscosity_index"] : sheet.fluid->viscosity_index;
  if (const auto at_100 = viscosity_100_of(oil.viscosity_40, index)) {
    oil.viscosity_100 = *at_100;
    return;
  }
  sheet.section.complain(
      fmt::format("is too thin for a viscosity index of {:.0f}, which needs 2 mm2/s at "
                  "100 °C; state viscosity_40 and viscosity_100",
                  index));
}

void set_pressure_viscosity(const Sheet& sheet, OilData& oil) {
  oil.pressure_viscosity = static_cast<PressureViscosity>(sheet.values.word("pressure_viscosity"));
  if (oil.pressure_viscosity != PressureViscosity::none) return sheet.set(thickening, oil);
  if (sheet.section.has(thickening.key))
    sheet.section.complain(thickening.key,
                           "counts for nothing without pressure_viscosity = \"Barus\" or \"Roelands\"");
}

void fill(OilData& oil, Section& section, const std::vector<double>& numbers) {
  const Values values(oil_parameters(), numbers);
  const auto fluid = static_cast<std::size_t>(values.word("fluid"));
  const Sheet sheet{values, section, fluid < fluids.size() ? &fluids[fluid] : nullptr};
  for (const ByFluid& each : by_fluid) sheet.set(each, oil);
  set_viscosity(sheet, oil);
  set_pressure_viscosity(sheet, oil);
  oil.temperature = values["temperature"];
  oil.air = values["air"];
  oil.air_exponent = values["air_exponent"];
}

/// Where the values of `loose_oil` stand.
constexpr std::array loose_fields{&OilData::viscosity_40, &OilData::air, &OilData::modulus};
static_assert(loose_fields.size() == loose_oil.size());
constexpr std::string_view temperature_range = "temperature_range";

int line_of(std::string_view name) { return find_parameter(oil_parameters(), name).value_or(-1); }

/// Reads what the oil's values may be off; `oil` is null where they were not understood.
void read_oil_tolerances(Draft& draft, Section& section, const OilData* oil) {
  const auto known = [&](int index) -> KnownValue {
    if (!oil) return {};
    return {KnownValue::Is::stated, oil->*loose_fields[static_cast<std::size_t>(index)]};
  };
  const auto table = loose_oil_parameters();
  for (const ReadTolerance& each : read_tolerances(section, table, known, draft.job.world, draft.remarks)) {
    const int line = line_of(loose_oil[static_cast<std::size_t>(each.parameter)].line);
    draft.job.tolerances.push_back({-1, line, each.tolerance, false, each.place});
  }
}

/// One end of the temperatures between which the machine is to work.
std::optional<double> read_temperature(Draft& draft, const Section& section, const Node& node) {
  Parameter line = oil_parameters()[static_cast<std::size_t>(line_of("temperature"))];
  line.name = temperature_range;
  return read_value(node, line, section.owner(), draft.job.world, draft.remarks);
}

void read_temperature_range(Draft& draft, Section& section, const OilData* oil) {
  const Node* node = section.find(temperature_range);
  if (!node) return;
  if (node->form != Node::Form::list || node->items.size() != 2)
    return section.complain(temperature_range,
                            "expected the coldest and the hottest oil, such as [\"10 degC\", \"55 degC\"]");
  const auto coldest = read_temperature(draft, section, node->items[0]),
             hottest = read_temperature(draft, section, node->items[1]);
  if (!coldest || !hottest) return;
  if (*coldest > *hottest)
    return section.complain(temperature_range, "the coldest stands first, and it is above the hottest");
  constexpr double rounding = 1e-6;  // K; one of them may be written in degF
  if (oil && (oil->temperature < *coldest - rounding || oil->temperature > *hottest + rounding))
    return section.complain(
        temperature_range,
        fmt::format("the oil's temperature, {}, is not in it",
                    units::show(oil->temperature, Quantity::temperature, draft.job.world)));
  draft.job.oil_temperatures = TemperatureRange{*coldest, *hottest};
}

}  // namespace

void read_oil(Draft& draft, Section& top) {
  const Node empty;
  const Node* node = top.table("oil");
  Section section(node ? *node : empty, "the oil", draft.remarks, keys::of_oil());
  section.take(oil_parameters());
  section.take(loose_oil_parameters());
  const std::size_t complaints = draft.remarks.size();
  std::vector<double> numbers;
  for (const Parameter& parameter : oil_parameters()) {
    numbers.push_back(parameter.fallback.value_or(std::numeric_limits<double>::quiet_NaN()));
    const Node* written = section.find(parameter.name);
    if (!written) continue;
    const auto value = read_value(*written, parameter, section.owner(), draft.job.world, draft.remarks);
    if (value) numbers.back() = *value;
  }
  if (draft.remarks.size() == complaints) fill(draft.job.plan.oil, section, numbers);
  const OilData* oil = draft.remarks.size() == complaints ? &draft.job.plan.oil : nullptr;
  read_oil_tolerances(draft, section, oil);
  read_temperature_range(draft, section, oil);
  section.text("note");
  section.refuse_unknown_keys();
}

}  // namespace poise::job
