// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Section 18 of the check values: preferred sizes. Those of the lists must be sizes that the parts take.
#include "check_values/source.hpp"
#include "parts/kind.hpp"
#include "units/units.hpp"

namespace poise::check {
namespace {

// SZ-01. ISO 3320, nominal ratios from memory (known: M): speed in over speed out is the ratio of the areas,
// as force is.
TEST(check_values, SZ_01_area_ratios_of_three_cylinders) {
  const auto ratio = [](double bore, double rod) {
    Bench b;
    add_dead_weight(b, "W1", 100 * si::bar);
    add_cylinder(b, "C1", bore, rod, 0.5, 0.2);
    b.set("C1", "damping", 1e4);
    b.join({"W1.A", "C1.A"});
    b.plug("C1.B");
    b.step("rest", 1.0);
    const Trace t = b.run({"C1.A.pressure", "C1.B.pressure"});
    return last(t, "C1.B.pressure") / last(t, "C1.A.pressure");
  };
  EXPECT_VALUE(ratio(40 * si::mm, 22 * si::mm), 1.433691756, 1.43, 0.3);
  EXPECT_VALUE(ratio(50 * si::mm, 28 * si::mm), 1.456876457, 1.46, 0.25);
  EXPECT_VALUE(ratio(100 * si::mm, 70 * si::mm), 1.960784314, 1.96, 0.1);
}

// SZ-02. SAE J517 convention; rule and table read in a secondary text, aesreddeer.com (known: S): sixteenths
// of an inch.
TEST(check_values, SZ_02_hose_dash_sizes_in_millimetres) {
  const auto mm = [](const char* text) { return units::read(text, Quantity::length).value.value() / si::mm; };
  EXPECT_VALUE(mm("0.25 in"), 6.35, 6.4, 0.85);   // -4
  EXPECT_VALUE(mm("0.375 in"), 9.525, 9.5, 0.3);  // -6
  EXPECT_VALUE(mm("0.5 in"), 12.7, 12.7, 0.05);   // -8
  EXPECT_VALUE(mm("0.75 in"), 19.05, 19.0, 0.3);  // -12
  EXPECT_VALUE(mm("1 in"), 25.4, 25.4, 0.05);     // -16
}

/// Every size of a list lies in the range of a part's parameter.
void expect_taken(const char* kind, const char* name, std::initializer_list<double> sizes, double unit) {
  const auto table = find_kind(kind)->parameters;
  const Parameter& p = table[static_cast<std::size_t>(find_parameter(table, name).value())];
  for (double size : sizes) {
    EXPECT_GE(size * unit, p.low * (1 - 1e-12)) << kind << " " << name;
    EXPECT_LE(size * unit, p.high * (1 + 1e-12)) << kind << " " << name;
  }
}

// TB-02. Cylinder bores, ISO 3320, from memory (known: M).
TEST(check_values, TB_02_preferred_bores_are_taken) {
  const auto bores = {8.,   10.,  12.,  16.,  20.,  25.,  32.,  40.,  50.,  60.,  63.,  80.,  90.,  100.,
                      110., 125., 140., 160., 180., 200., 220., 250., 280., 320., 360., 400., 450., 500.};
  expect_taken("double_acting_cylinder", "bore", bores, si::mm);
  expect_taken("single_acting_cylinder", "bore", bores, si::mm);
}
// TB-03. Piston rods, ISO 3320, from memory (known: M).
TEST(check_values, TB_03_preferred_rods_are_taken) {
  expect_taken(
      "double_acting_cylinder", "rod",
      {4.,  5.,  6.,  8.,  10., 12.,  14.,  16.,  18.,  20.,  22.,  25.,  28.,  32.,  36.,  40.,  45., 50.,
       56., 63., 70., 80., 90., 100., 110., 125., 140., 160., 180., 200., 220., 250., 280., 320., 360.},
      si::mm);
}
// TB-04. Strokes, ISO 4393, first series, from memory (known: M).
TEST(check_values, TB_04_preferred_strokes_are_taken) {
  const auto strokes = {25., 50., 80., 100., 125., 160., 200., 250., 320., 400., 500.};
  expect_taken("double_acting_cylinder", "stroke", strokes, si::mm);
  expect_taken("single_acting_cylinder", "stroke", strokes, si::mm);
}
// TB-05. Hose bores, ISO 1307 and ISO 4397, from memory (known: M).
TEST(check_values, TB_05_nominal_hose_bores_are_taken) {
  expect_taken("hose", "bore", {3.2, 4., 5., 6.3, 8., 10., 12.5, 16., 19., 25., 31.5, 38., 51.}, si::mm);
}
// TB-07. Nominal pressures, ISO 2944, from memory (known: M): as ratings, of every part that takes one.
TEST(check_values, TB_07_nominal_pressures_are_taken) {
  const auto pressures = {16., 25., 40., 63., 100., 160., 200., 250., 315., 400., 500., 630., 800., 1000.};
  for (const Kind& kind : all_kinds()) {
    if (!find_parameter(kind.parameters, "rated_pressure")) continue;
    expect_taken(std::string(kind.about.kind).c_str(), "rated_pressure", pressures, si::bar);
  }
}

}  // namespace
}  // namespace poise::check
