// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>

#include <cmath>

#include "support/one_part.hpp"
#include "support/trade.hpp"

namespace poise::workshop {
namespace {

/// A divider of n equal sections; A leads to a gauge, the others to tank.
Trace dead_end(int sections) {
  Bench b;
  add_power_unit(b, 4 * si::litre_per_minute,
                 {.cracking = 50 * si::bar, .rated_flow = 12 * si::litre_per_minute});
  b.set("P1", "running", 1.0);
  b.part("H1", "hose", {{"bore", 10 * si::mm}, {"length", 2.0}});
  b.part("D1", "gear_flow_divider", {{"rated_flow", 12 * si::litre_per_minute}, {"friction", 0.0}});
  b.points("D1", "sections", Points(sections, {2 * si::cm3, 0.0}));
  b.part("HA", "hose", {{"bore", 6 * si::mm}, {"length", 1.0}});
  b.part("G1", "gauge", {{"range", 400 * si::bar}});
  b.join({"V1.P", "H1.A"});
  b.join({"H1.B", "D1.P"});
  b.join({"D1.A", "HA.A"});
  b.join({"HA.B", "G1.M"});
  for (int i = 1; i < sections; ++i) b.join({std::string("D1.") + "ABCD"[i], "T1.T"});
  b.step("run", 5.0);
  Trace t = b.run({"D1.P.pressure", "G1.reading", "D1.shaft_speed"});
  expect_closed_books(t);
  return t;
}

// Trade: a gear divider's outlet can reach inlet pressure × number of sections (troubleshooting story on gear
// dividers, trade magazine's e-book): two sections twice, four sections four times.
TEST(gear_flow_divider, multiplies_the_pressure_at_one_outlet_by_the_number_of_its_sections) {
  for (int n : {2, 3, 4}) {
    const Trace t = dead_end(n);
    EXPECT_NEAR(last(t, "G1.reading"), n * last(t, "D1.P.pressure"), 1e-3 * n * last(t, "D1.P.pressure"));
    EXPECT_GT(last(t, "D1.P.pressure"), 50 * si::bar);
    EXPECT_NEAR(last(t, "D1.shaft_speed"), 0.0, 1e-3);
  }
}

// Friction takes its share of every section's torque, so the shaft turns as long as
// D·(p − p_A) + (n − 1)·D·p > f·D·((p_A − p) + (n − 1)·p).
TEST(gear_flow_divider, loses_some_of_that_to_friction) {
  const double f = 0.05, p = 50 * si::bar, stalls_at = p * (1 + 3 * (1 - f) / (1 + f));
  OnePart d("gear_flow_divider", {{"rated_flow", 12 * si::litre_per_minute}, {"friction", f}}, {},
            {{"sections", Points(4, {2 * si::cm3, 0.0})}});
  d.press(0, p);
  d.press(1, 0.995 * stalls_at);
  EXPECT_GT(d.report(0), 0.0);
  d.press(1, 1.005 * stalls_at);
  EXPECT_EQ(d.report(0), 0.0);
  // Driven back only when friction is overcome the other way.
  const double turns_back_at = p * (1 + 3 * (1 + f) / (1 - f));
  d.press(1, 0.995 * turns_back_at);
  EXPECT_EQ(d.report(0), 0.0);
  d.press(1, 1.005 * turns_back_at);
  EXPECT_LT(d.report(0), 0.0);
}

TEST(gear_flow_divider, splits_by_displacement_whatever_the_pressures_and_loses_what_it_leaks) {
  const auto run = [](double leakage) {
    Bench b;
    add_power_unit(b, 8 * si::litre_per_minute,
                   {.cracking = 220 * si::bar, .rated_flow = 12 * si::litre_per_minute});
    b.set("P1", "running", 1.0);
    b.part("H1", "hose", {{"bore", 10 * si::mm}, {"length", 2.0}});
    b.part("D1", "gear_flow_divider",
           {{"rated_flow", 12 * si::litre_per_minute}, {"rated_pressure", 200 * si::bar}});
    b.points("D1", "sections", {{3 * si::cm3, leakage}, {1 * si::cm3, leakage}});
    b.join({"V1.P", "H1.A"});
    b.join({"H1.B", "D1.P"});
    for (const auto& [n, setting] : {std::pair{"A", 20 * si::bar}, std::pair{"B", 150 * si::bar}}) {
      const std::string i = n;
      b.part("H" + i, "hose", {{"bore", 10 * si::mm}, {"length", 2.0}});
      b.part("R" + i, "relief", {{"setting", setting}, {"rated_flow", 8 * si::litre_per_minute}});
      b.join({"D1." + i, "H" + i + ".A"});
      b.join({"H" + i + ".B", "R" + i + ".P"});
      b.join({"R" + i + ".T", "T1.T"});
    }
    b.step("run", 3.0);
    const Trace t = b.run(
        {"D1.A.flow", "D1.B.flow", "D1.P.pressure", "D1.A.pressure", "D1.B.pressure", "D1.shaft_speed"});
    expect_closed_books(t);
    const Oil oil{OilData{}};
    const double a = -last(t, "D1.A.flow") * oil.density(last(t, "D1.A.pressure")).value,
                 c = -last(t, "D1.B.flow") * oil.density(last(t, "D1.B.pressure")).value,
                 in = oil.density(last(t, "D1.P.pressure")).value;
    // The inlet stands between the outlets: A drives and B is driven.
    EXPECT_LT(last(t, "D1.P.pressure"), last(t, "D1.B.pressure"));
    EXPECT_GT(last(t, "D1.P.pressure"), last(t, "D1.A.pressure"));
    const double k = leakage / (200 * si::bar), turned = last(t, "D1.shaft_speed");
    const auto leaks = [&](const char* outlet) {  // leaves the side with the higher pressure
      const double drop = last(t, "D1.P.pressure") - last(t, outlet);
      return k * drop * (drop > 0 ? in : oil.density(last(t, outlet)).value);
    };
    EXPECT_NEAR(a, in * 3 * si::cm3 * turned + leaks("D1.A.pressure"), 1e-4 * a);
    EXPECT_NEAR(c, in * 1 * si::cm3 * turned + leaks("D1.B.pressure"), 1e-4 * a);
    return a / c;
  };
  EXPECT_NEAR(run(0.0), 3.0, 1e-3);
  EXPECT_GT(run(200 * si::cm3_per_minute), 3.1);
}

}  // namespace
}  // namespace poise::workshop
