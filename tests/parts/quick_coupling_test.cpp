// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>

#include <cmath>

#include "support/one_part.hpp"
#include "support/trade.hpp"

namespace poise::workshop {
namespace {

// A cylinder of area ratio 2 with 207 bar on its cap side and its rod side shut: 414 bar (check value MI-05,
// a general principle of the trade). A coupling on the rod side that is only half made does just that.
TEST(quick_coupling, half_made_on_the_rod_side_doubles_the_pressure_of_a_two_to_one_cylinder) {
  const auto run = [](double position) {
    Bench b;
    add_power_unit(
        b, 1 * si::litre_per_minute,
        {.cracking = 207 * si::bar, .rated_flow = 8 * si::litre_per_minute, .override_share = 0.005});
    b.part("H1", "hose", {{"bore", 10 * si::mm}, {"length", 5.0}});
    b.part("C1", "double_acting_cylinder",
           {{"bore", 50 * si::mm},
            {"rod", 50 * si::mm / std::sqrt(2.0)},
            {"stroke", 0.1},
            {"friction", 0.0},
            {"seal_friction", 0.0}});
    b.part("Q1", "quick_coupling", {{"rated_flow", 4 * si::litre_per_minute}, {"position", position}});
    b.join({"V1.P", "H1.A"});
    b.join({"H1.B", "C1.A"});
    b.join({"C1.B", "Q1.A"});
    b.join({"Q1.B", "T1.T"});
    b.step("press", 20.0, {{"P1", "running", 1.0}});
    const Trace t = b.run({"C1.A.pressure", "C1.B.pressure", "C1.position"});
    expect_closed_books(t);
    return std::array{last(t, "C1.A.pressure"), last(t, "C1.B.pressure"), last(t, "C1.position")};
  };
  const auto [cap, rod, place] = run(1.0);
  EXPECT_NEAR(cap, 207 * si::bar, 0.01 * 207 * si::bar);
  EXPECT_NEAR(rod, 2 * cap, 1e-3 * 2 * cap);
  EXPECT_LT(place, 10 * si::mm);
  EXPECT_GT(run(2.0)[2], 0.0999);  // joined it runs out
}

TEST(quick_coupling, apart_loses_a_pallets_pressure_by_what_its_half_drips) {
  Bench b;
  const double leakage = 2 * si::cm3_per_minute, rating = 350 * si::bar;
  b.plan.oil.air = 1e-5;
  add_power_unit(b, 2 * si::litre_per_minute,
                 {.cracking = 100 * si::bar, .rated_flow = 8 * si::litre_per_minute});
  b.set("P1", "running", 1.0);
  b.part("H1", "hose", {{"bore", 10 * si::mm}, {"length", 3.0}});
  b.part("Q1", "quick_coupling",
         {{"rated_flow", 4 * si::litre_per_minute}, {"leakage", leakage}, {"rated_pressure", rating}});
  b.part("L1", "tube", {{"bore", 10 * si::mm}, {"wall", 3 * si::mm}, {"length", 2.0}});
  b.part("G1", "gauge", {{"range", 250 * si::bar}, {"give", 0.5 * si::cm3}});
  b.join({"V1.P", "H1.A"});
  b.join({"H1.B", "Q1.A"});
  b.join({"Q1.B", "L1.A"});
  b.join({"L1.B", "G1.M"});
  b.join({"Q1.L", "T1.T"});
  b.step("press", 2.0);
  b.step("part", 1.0, {{"Q1", "position", 0.0, 0.2}});
  b.step("store", 60.0);
  const Trace t = b.run({"G1.reading", "Q1.A.pressure"});
  expect_closed_books(t);
  const double p0 = at(t, "G1.reading", 3.0), p1 = last(t, "G1.reading"), p = 0.5 * (p0 + p1);
  const Oil oil{b.plan.oil};
  const double tube = circle(10 * si::mm) * 2.0,
               wall = tube * 10.0 / (3.0 * 210e9) + 0.5 * si::cm3 / (250 * si::bar);
  const double volume = tube + 1 * si::cm3 + 1 * si::cm3 + wall * p;  // tube, coupling, gauge
  const double give = volume / oil.effective_modulus(p) + wall;
  // dp/dt = −k·p/give
  const double expected = p0 * std::exp(-leakage / rating * 60.0 / give);
  EXPECT_LT(p1, 0.9 * p0);
  EXPECT_NEAR(p1, expected, 0.01 * (p0 - p1));
  EXPECT_GT(last(t, "Q1.A.pressure"), 100 * si::bar);  // the pump's side stays pressed
}

TEST(quick_coupling, joined_takes_its_stated_drop_and_half_open_the_square_of_that) {
  OnePart joined("quick_coupling", {{"rated_flow", 1e-4}, {"pressure_drop", 2 * si::bar}});
  EXPECT_NEAR(joined.drop_for(1e-4), 2 * si::bar, 1.0);
  OnePart half("quick_coupling",
               {{"rated_flow", 1e-4}, {"pressure_drop", 2 * si::bar}, {"position", 1.0}, {"half_open", 0.1}});
  EXPECT_NEAR(half.drop_for(1e-4), 200 * si::bar, 100.0);
}

}  // namespace
}  // namespace poise::workshop
