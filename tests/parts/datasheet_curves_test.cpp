// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Curves as datasheets give them: needle flows over turns, hose swelling, support capacity, arm length.
#include <gtest/gtest.h>

#include <cmath>

#include "support/one_part.hpp"

namespace poise::workshop {
namespace {

constexpr double litre = si::litre_per_minute;

// Invented, of the shape that such curves have: flat at first, then steep.
const Points needle_flows{{1.0, 0.10 * litre}, {2.0, 0.35 * litre}, {4.0, 1.6 * litre}, {6.0, 5.0 * litre}};
constexpr double curve_drop = 20 * si::bar;

double needle_flow(double turns, double drop_at_870,
                   std::initializer_list<std::pair<std::string_view, double>> more = {},
                   const OilData& data = {}) {
  OnePart n("needle", {{"turns", turns}, {"curve_drop", curve_drop}}, data, {{"flow_curve", needle_flows}});
  for (const auto& [name, value] : more) n.set(name, value);
  // a and b of the law both grow with the density: at a drop greater in that ratio the flow is the
  // datasheet's.
  double drop = drop_at_870;
  for (int i = 0; i < 20; ++i) drop = drop_at_870 * n.oil().density(drop).value / 870.0;
  n.press(0, drop);
  return n.flow(0);
}

TEST(needle_curve, passes_the_datasheets_flow_at_each_of_its_points) {
  for (const CurvePoint& p : needle_flows) EXPECT_NEAR(needle_flow(p.x, curve_drop), p.y, 1e-6 * p.y);
}

TEST(needle_curve, grows_all_the_way_and_shuts_at_no_turns) {
  double before = 0.0;
  EXPECT_EQ(needle_flow(0.0, curve_drop), 0.0);
  for (double turns = 0.25; turns <= 6.0; turns += 0.25) {
    const double q = needle_flow(turns, curve_drop);
    EXPECT_GT(q, before);
    before = q;
  }
}

TEST(needle_curve, at_four_times_the_drop_passes_twice_the_flow_but_for_the_laminar_share) {
  // Δp = a·(Q² + Q_t·Q): between √4 (turbulent) and 4 (laminar).
  const double ratio = needle_flow(6.0, 4 * curve_drop) / needle_flow(6.0, curve_drop);
  EXPECT_GT(ratio, 2.0);
  EXPECT_LT(ratio, 2.2);
}

TEST(needle_curve, measured_in_thin_oil_passes_less_in_thick) {
  OilData thick;
  thick.viscosity_40 = 460 * si::mm2_per_s;
  thick.viscosity_100 = 30 * si::mm2_per_s;
  const double in_own = needle_flow(1.0, curve_drop, {}, thick);
  EXPECT_NEAR(in_own, 0.10 * litre, 1e-6 * litre);  // left out: the curve holds for the job's oil
  EXPECT_LT(needle_flow(1.0, curve_drop, {{"curve_viscosity", 32 * si::mm2_per_s}}, thick), 0.8 * in_own);
}

TEST(needle_curve, reports_its_points_beside_the_law_and_names_what_is_missing) {
  OnePart n("needle", {{"turns", 1.0}, {"curve_drop", curve_drop}}, {}, {{"flow_curve", needle_flows}});
  const auto fits = n.kind().curves(n.values(), n.oil());
  ASSERT_EQ(fits.size(), 1u);
  EXPECT_EQ(fits[0].rows.size(), needle_flows.size());
  EXPECT_LT(fits[0].worst(), 1e-6);
  EXPECT_TRUE(n.kind().check(n.values()).empty());
  n.set("turns", 7.0);
  n.set("curve_drop", std::nan(""));
  const auto wrong = n.kind().check(n.values());
  ASSERT_EQ(wrong.size(), 2u);
  EXPECT_EQ(wrong[0].parameter, "curve_drop");
  EXPECT_EQ(wrong[1].parameter, "turns");
}

TEST(needle_curve, serves_the_one_way_flow_control_too) {
  OnePart n("one_way_flow_control", {{"turns", 4.0}, {"curve_drop", curve_drop}, {"rated_flow", 10 * litre}},
            {}, {{"flow_curve", needle_flows}});
  double drop = curve_drop;
  for (int i = 0; i < 20; ++i) drop = curve_drop * n.oil().density(drop).value / 870.0;
  n.press(1, drop);  // metered from B to A
  EXPECT_NEAR(n.flow(1), 1.6 * litre, 1e-6 * litre);
}

TEST(hose_curve, swells_by_least_squares_through_zero) {
  // Σ p·V/Σ p² of (100 bar, 1.2), (200, 2.1), (400, 4.4 cm3/m): 2300/210000 cm3/(m·bar)
  OnePart h(
      "hose", {{"bore", 6 * si::mm}, {"length", 3.0}}, {},
      {{"expansion_curve",
        {{100 * si::bar, 1.2 * si::cm3}, {200 * si::bar, 2.1 * si::cm3}, {400 * si::bar, 4.4 * si::cm3}}}});
  const double expected = 2300.0 / 210000.0 * si::cm3 / si::bar;
  const Laws laws = h.kind().make(h.values(), h.oil());
  EXPECT_NEAR(laws.space(laws.numbers.get(), 0).wall, 0.5 * expected * 3.0, 1e-9 * expected);
  const auto fits = h.kind().curves(h.values(), h.oil());
  ASSERT_EQ(fits.size(), 1u);
  EXPECT_NEAR(fits[0].rows[1].fitted, expected * 200 * si::bar, 1e-9 * si::cm3);
  EXPECT_NEAR(fits[0].worst(), (1.2 - 100 * 2300.0 / 210000.0) / 4.4,
              1e-9);  // the first point is furthest off
}

TEST(support_curve, holds_what_the_points_say_and_nothing_below_the_pressure_they_lead_to) {
  const Points points{{100 * si::bar, 2 * si::kN}, {200 * si::bar, 6 * si::kN}, {350 * si::bar, 11 * si::kN}};
  const auto capacity = [&](double pressure, double grip) {
    OnePart s("work_support", {{"grip", grip}}, {}, {{"capacity_curve", points}});
    s.press(0, pressure);
    return s.report(0);
  };
  for (const CurvePoint& p : points) {
    EXPECT_NEAR(capacity(p.x, 1.0), p.y, 1e-6);
    EXPECT_NEAR(capacity(p.x, 0.4), 0.4 * p.y, 1e-6);
  }
  // The line through the first two points meets zero at 50 bar.
  EXPECT_EQ(capacity(49.9 * si::bar, 1.0), 0.0);
  EXPECT_GT(capacity(60 * si::bar, 1.0), 0.0);
  EXPECT_LT(capacity(60 * si::bar, 1.0), 1 * si::kN);
  EXPECT_GT(capacity(400 * si::bar, 1.0), 11 * si::kN);
  OnePart s("work_support", {}, {}, {{"capacity_curve", points}});
  EXPECT_TRUE(s.kind().check(s.values()).empty());
  ASSERT_EQ(s.kind().curves(s.values(), s.oil()).size(), 1u);
  EXPECT_LT(s.kind().curves(s.values(), s.oil())[0].worst(), 1e-12);
}

TEST(support_curve, that_is_straight_is_the_law_of_one_stated_capacity) {
  OnePart by_curve(
      "work_support", {}, {},
      {{"capacity_curve", {{40 * si::bar, 0.0}, {190 * si::bar, 5 * si::kN}, {340 * si::bar, 10 * si::kN}}}});
  OnePart by_numbers(
      "work_support",
      {{"lock_pressure", 40 * si::bar}, {"capacity", 10 * si::kN}, {"capacity_pressure", 340 * si::bar}});
  for (double p : {0.0, 30e5, 45e5, 100e5, 250e5, 500e5}) {
    by_curve.press(0, p);
    by_numbers.press(0, p);
    EXPECT_NEAR(by_curve.report(0), by_numbers.report(0), 1e-6);
  }
}

// A published table of swing clamps of the 70-bar class fits F = F_0/(1 + k·L), k = 0.0026/mm, to ±0.03 kN
// (swing-clamp force table; the fit is our own). Points here follow that, rounded to 10 N as such a table is.
TEST(arm_curve, falls_with_the_length_of_the_arm_as_a_published_table_does) {
  Points table;
  for (double mm : {40.0, 60.0, 80.0, 100.0, 140.0, 180.0})
    table.push_back({mm * si::mm, std::round(4000.0 / (1 + 0.0026 * mm) / 10.0) * 10.0});
  OnePart clamp("swing_clamp",
                {{"clamp_area", 6 * si::cm2},
                 {"swing_stroke", 10 * si::mm},
                 {"clamp_stroke", 10 * si::mm},
                 {"part_stiffness", 1e7},
                 {"arm_length", 120 * si::mm}},
                {}, {{"arm_curve", table}});
  ASSERT_TRUE(clamp.kind().check(clamp.values()).empty());
  clamp.here.body[0].position = 15 * si::mm + 0.2 * si::mm;  // 0.2 mm into the part: 2 kN of the piston
  EXPECT_NEAR(clamp.report(0), 2 * si::kN / (1 + 0.0026 * 120), 0.002 * 2 * si::kN);
  const auto fits = clamp.kind().curves(clamp.values(), clamp.oil());
  ASSERT_EQ(fits.size(), 1u);
  EXPECT_LT(fits[0].worst(), 0.002);
  EXPECT_GT(fits[0].worst(), 0.0);  // rounded points lie beside the curve
}

TEST(arm_curve, needs_the_length_of_this_arm) {
  OnePart clamp("swing_clamp",
                {{"clamp_area", 6 * si::cm2}, {"swing_stroke", 10 * si::mm}, {"clamp_stroke", 10 * si::mm}},
                {}, {{"arm_curve", {{50 * si::mm, 3 * si::kN}, {100 * si::mm, 3.2 * si::kN}}}});
  const auto wrong = clamp.kind().check(clamp.values());
  ASSERT_EQ(wrong.size(), 2u);
  EXPECT_EQ(wrong[0].parameter, "arm_length");
  EXPECT_EQ(wrong[1].parameter, "arm_curve");  // it grows with the length
}

}  // namespace
}  // namespace poise::workshop
