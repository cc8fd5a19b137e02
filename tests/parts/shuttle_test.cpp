// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>

#include "support/one_part.hpp"
#include "support/trade.hpp"

namespace poise::workshop {
namespace {

/// Two power units of different pressure, each with a valve that joins its line to the shuttle or empties it;
/// a gauge at the shuttle's outlet.
Bench two_lines(double held_open) {
  Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 20 * si::litre}});
  for (const auto& [n, setting] : {std::pair{"1", 150 * si::bar}, std::pair{"2", 90 * si::bar}}) {
    const std::string i = n;
    b.part("P" + i, "pump",
           {{"flow", 2 * si::litre_per_minute}, {"rated_pressure", 250 * si::bar}, {"running", 1.0}});
    b.part("R" + i, "relief", {{"setting", setting}, {"rated_flow", 8 * si::litre_per_minute}});
    b.part("H" + i, "hose", {{"bore", 10 * si::mm}, {"length", 3.0}});
    b.part("V" + i, "directional_3_2", {{"rated_flow", 12 * si::litre_per_minute}});
    b.join({"P" + i + ".P", "R" + i + ".P", "H" + i + ".A"});
    b.join({"H" + i + ".B", "V" + i + ".P"});
    b.join({"T1.T", "P" + i + ".S", "R" + i + ".T", "V" + i + ".T"});
  }
  b.part("S1", "shuttle", {{"rated_flow", 8 * si::litre_per_minute}, {"held_open", held_open}});
  b.part("G1", "gauge", {{"range", 250 * si::bar}});
  b.join({"V1.A", "S1.A"});
  b.join({"V2.A", "S1.B"});
  b.join({"S1.C", "G1.M"});
  b.step("both empty", 1.0);
  b.step("first pressed", 2.0, {{"V1", "position", 1.0, 0.05}});
  b.step("both pressed", 2.0, {{"V2", "position", 1.0, 0.05}});
  b.step("first emptied", 2.0, {{"V1", "position", 0.0, 0.05}});
  b.step("both emptied", 2.0, {{"V2", "position", 0.0, 0.05}});
  return b;
}

TEST(shuttle, passes_the_higher_pressure_and_empties_with_the_last) {
  const Trace t = two_lines(0.0).run(
      {"G1.reading", "S1.A.pressure", "S1.B.pressure", "S1.A.flow", "S1.B.flow", "S1.from_A"});
  expect_closed_books(t);
  EXPECT_NEAR(at(t, "G1.reading", 0.99), 0.0, 0.1 * si::bar);
  EXPECT_NEAR(at(t, "G1.reading", 2.99), at(t, "S1.A.pressure", 2.99), 1e-3 * 150 * si::bar);
  EXPECT_GT(at(t, "G1.reading", 2.99), 150 * si::bar);
  // The lower line is pressed too, and nothing changes at C.
  EXPECT_GT(at(t, "S1.B.pressure", 4.99), 90 * si::bar);
  EXPECT_NEAR(at(t, "G1.reading", 4.99), at(t, "G1.reading", 2.99), 1e-3 * 150 * si::bar);
  EXPECT_EQ(at(t, "S1.B.flow", 4.99), 0.0);
  EXPECT_EQ(at(t, "S1.from_A", 4.99), 1.0);
  EXPECT_NEAR(at(t, "G1.reading", 6.99), at(t, "S1.B.pressure", 6.99), 1e-3 * 90 * si::bar);
  EXPECT_GT(at(t, "G1.reading", 6.99), 90 * si::bar);
  EXPECT_EQ(at(t, "S1.A.flow", 6.99), 0.0);
  EXPECT_LT(last(t, "G1.reading"), 1 * si::bar);
}

TEST(shuttle, with_dirt_under_the_ball_bleeds_from_one_line_into_the_other) {
  const Trace t = two_lines(0.05).run({"S1.A.flow", "S1.B.flow"});
  expect_closed_books(t);
  EXPECT_GT(at(t, "S1.A.flow", 2.99), 0.05 * si::litre_per_minute);
  EXPECT_NEAR(at(t, "S1.A.flow", 2.99), -at(t, "S1.B.flow", 2.99), 0.02 * at(t, "S1.A.flow", 2.99));
}

TEST(shuttle, at_equal_pressures_stands_half_open_to_both_lines) {
  OnePart s("shuttle", {{"rated_flow", 8 * si::litre_per_minute}, {"pressure_drop", 5 * si::bar}});
  s.press(0, 5 * si::bar);
  s.press(1, 5 * si::bar);
  // x = 1/2: a/x², so the flow of each is that of a quarter of the drop fully open.
  const double a = 5 * si::bar / (1.1 * std::pow(8 * si::litre_per_minute, 2)),
               b = 0.1 * a * 8 * si::litre_per_minute;
  const double q = s.flow(0);
  EXPECT_NEAR(a * q * q + b * q, 5 * si::bar / 4, 1.0);
  EXPECT_DOUBLE_EQ(s.flow(1), q);
}

}  // namespace
}  // namespace poise::workshop
