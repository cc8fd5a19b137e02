// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Cylinders with a through hole, cylinders that pull, and rods that bow. Invented data.
#include <gtest/gtest.h>

#include <cmath>

#include "parts/buckling.hpp"
#include "parts/laws.hpp"
#include "support/trade.hpp"

namespace poise {
namespace {

using namespace workshop;

constexpr double closed_form = 1e-3;

#define EXPECT_CLOSE(found, expected) EXPECT_NEAR(found, expected, closed_form* std::abs(expected))

// p = F/A with the ring left by the hole: a hollow plunger needs more pressure for the same load.
TEST(cylinder, a_hollow_plunger_carries_by_the_area_around_its_hole) {
  Bench b;
  const double bore = 90 * si::mm, hole = 54 * si::mm, mass = 6000.0;
  add_power_unit(b, 2 * si::litre_per_minute,
                 {.cracking = 250 * si::bar, .rated_flow = 10 * si::litre_per_minute});
  b.part("V2", "check", {{"rated_flow", 10 * si::litre_per_minute}});
  b.part("C1", "single_acting_cylinder",
         {{"bore", bore},
          {"hole", hole},
          {"stroke", 0.15},
          {"friction", 0.0},
          {"damping", 5e4},
          {"seal_friction", 0.0}});
  b.part("M1", "mass", {{"mass", mass}});
  b.join({"P1.P", "V2.A"});
  b.join({"V2.B", "C1.A"});
  b.join({"C1.rod", "M1.rod"});
  b.step("lift", 5.0, {{"P1", "running", 1.0}});
  b.step("hold", 2.0, {{"P1", "running", 0.0}});
  const Trace t = b.run({"C1.A.pressure", "C1.position"});
  expect_closed_books(t);
  const double area = std::numbers::pi / 4 * (bore * bore - hole * hole);
  EXPECT_CLOSE(last(t, "C1.A.pressure"), mass * si::gravity / area);
  EXPECT_GT(last(t, "C1.position"), 30 * si::mm);
}

// A double-acting hollow plunger: A_A = π/4·(bore² − hole²), A_B = π/4·(bore² − rod²); pushed and pulled at
// 200 bar it gives p·A of each side.
TEST(cylinder, a_double_acting_hollow_plunger_pushes_and_pulls_by_its_two_rings) {
  const double bore = 100 * si::mm, hole = 40 * si::mm, rod = 70 * si::mm;
  Bench b;
  b.part("C1", "double_acting_cylinder", {{"bore", bore}, {"hole", hole}, {"rod", rod}, {"stroke", 0.1}});
  const Circuit circuit = [&] {
    b.plug("C1.A");
    b.plug("C1.B");
    return build(b.plan);
  }();
  const Laws& laws = circuit.parts[0].laws;
  const double p = 200 * si::bar;
  const auto force_at = [&](double a, double c) {
    Neighbourhood n{};
    n.oil[0] = {a, 880.0, 1.0, 0.0};
    n.oil[1] = {c, 880.0, 1.0, 0.0};
    n.body[0] = {0.05, 0.0};
    Answers answers;
    laws.answer(laws.numbers.get(), n, answers);
    return answers.row[2];
  };
  EXPECT_CLOSE(force_at(p, 0.0), p * std::numbers::pi / 4 * (bore * bore - hole * hole));
  EXPECT_CLOSE(force_at(0.0, p), -p * std::numbers::pi / 4 * (bore * bore - rod * rod));
  EXPECT_CLOSE(laws.space(laws.numbers.get(), 0).swept[0],
               std::numbers::pi / 4 * (bore * bore - hole * hole));
}

// CY-11 (Sullivan, Fluid Power: Theory and Applications, 4th ed., Example 8.6, recomputed): 7500 lbf on the
// rod side of a 3 in bore with a 1.5 in rod stand at 1414.71 psi. Here the cylinder lifts by pulling its rod
// in.
TEST(cylinder, one_that_pulls_lifts_a_hanging_load_by_the_ring_around_its_rod) {
  const double inch = 25.4 * si::mm, pound_force = 4.4482216152605, psi = 6894.757293168;
  Bench b;
  add_power_unit(b, 2 * si::litre_per_minute,
                 {.cracking = 200 * si::bar, .rated_flow = 10 * si::litre_per_minute});
  b.part("V2", "check", {{"rated_flow", 10 * si::litre_per_minute}});
  b.part("C1", "single_acting_cylinder",
         {{"bore", 3 * inch},
          {"rod", 1.5 * inch},
          {"acts", 1.0},
          {"stroke", 0.3},
          {"start_position", 0.3},
          {"friction", 0.0},
          {"seal_friction", 0.0},
          {"damping", 2e4}});
  b.part("M1", "mass", {{"mass", 7500 * pound_force / si::gravity}, {"slope", -90 * si::degree}});
  b.join({"P1.P", "V2.A"});
  b.join({"V2.B", "C1.A"});
  b.join({"C1.rod", "M1.rod"});
  b.step("pull", 8.0, {{"P1", "running", 1.0}});
  b.step("hold", 3.0, {{"P1", "running", 0.0}});
  const Trace t = b.run({"C1.A.pressure", "C1.position", "C1.force", "C1.buckling_share"});
  expect_closed_books(t);
  EXPECT_CLOSE(last(t, "C1.A.pressure"), 1414.710605 * psi);
  EXPECT_CLOSE(last(t, "C1.force"), -7500 * pound_force);
  EXPECT_LT(last(t, "C1.position"), 0.25);
  EXPECT_EQ(last(t, "C1.buckling_share"), 0.0);  // a pulled rod does not bow
}

// The spring of a cylinder that pulls brings the rod out again: preload with the rod out, more with it in.
TEST(cylinder, the_spring_of_one_that_pulls_brings_the_rod_out_again) {
  Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 10 * si::litre}});
  b.part("C1", "single_acting_cylinder",
         {{"bore", 60 * si::mm},
          {"rod", 30 * si::mm},
          {"acts", 1.0},
          {"stroke", 0.1},
          {"spring_preload", 300.0},
          {"spring_rate", 4000.0}});
  b.part("F1", "force", {{"force", 5000.0}});
  b.join({"T1.T", "C1.A"});
  b.join({"C1.rod", "F1.rod"});
  b.step("let go", 5.0, {{"F1", "force", 0.0, 0.5}});
  const Trace t = b.run({"C1.position", "C1.force"});
  expect_closed_books(t);
  EXPECT_NEAR(at(t, "C1.position", 0.0), 0.0, 0.1 * si::mm);
  EXPECT_NEAR(at(t, "C1.force", 0.0), 300.0 + 4000.0 * 0.1, 5.0);
  EXPECT_NEAR(last(t, "C1.position"), 0.1, 0.1 * si::mm);
}

TEST(cylinder, says_what_does_not_go_together) {
  const auto complaint = [](std::string_view kind, Bench::Numbers numbers) {
    Bench b;
    b.part("C1", kind, numbers);
    const auto found = find_kind(kind)->check(b.plan.parts[0].values);
    return found.empty() ? std::string() : found.front().sentence;
  };
  const double bore = 60 * si::mm, stroke = 0.1;
  EXPECT_EQ(complaint("single_acting_cylinder", {{"bore", bore}, {"stroke", stroke}}), "");
  EXPECT_NE(
      complaint("single_acting_cylinder", {{"bore", bore}, {"stroke", stroke}, {"acts", 1.0}}).find("rod"),
      std::string::npos);
  EXPECT_NE(
      complaint("single_acting_cylinder", {{"bore", bore}, {"stroke", stroke}, {"hole", bore}}).find("hole"),
      std::string::npos);
  EXPECT_NE(complaint("double_acting_cylinder",
                      {{"bore", bore}, {"stroke", stroke}, {"rod", 30 * si::mm}, {"hole", 30 * si::mm}})
                .find("hole"),
            std::string::npos);
}

// BK-06: steel rod of 36 mm, pinned at both ends, 1500 mm: 75.95 kN by Euler, E = 210 GPa. The cylinder's
// closed length and extension add up to that length.
TEST(buckling, a_rod_that_comes_out_bows_at_eulers_load) {
  Bench b;
  const double rod = 36 * si::mm, closed = 0.9, out = 0.6;
  b.part("T1", "reservoir", {{"usable_oil", 10 * si::litre}});
  b.part("C1", "double_acting_cylinder",
         {{"bore", 50 * si::mm},
          {"rod", rod},
          {"stroke", 0.8},
          {"start_position", out},
          {"closed_length", closed},
          {"ends", 1.0}});
  b.part("F1", "force", {{"force", 0.0}});
  b.join({"C1.rod", "F1.rod"});
  b.plug("C1.A");
  b.join({"T1.T", "C1.B"});
  b.step("push", 3.0, {{"F1", "force", 10 * si::kN, 1.0}});
  const Trace t = b.run({"C1.buckling_load", "C1.buckling_share", "C1.force", "C1.position"});
  const double length = closed + last(t, "C1.position");
  EXPECT_NEAR(at(t, "C1.buckling_load", 0.0), 75.948e3, 0.05e3);
  EXPECT_CLOSE(last(t, "C1.buckling_load"), 75.948e3 * std::pow(1.5 / length, 2));
  EXPECT_CLOSE(last(t, "C1.buckling_share"), last(t, "C1.force") / last(t, "C1.buckling_load"));
  EXPECT_NEAR(last(t, "C1.force"), 10 * si::kN, 200.0);
}

// Johnson's parabola meets Euler's curve at half the yield strength with the same slope, and ends at yield.
TEST(buckling, johnson_and_euler_meet_without_a_corner) {
  const double diameter = 50 * si::mm, yield = 350e6;
  const double area = circle(diameter), radius = diameter / 4;
  const double critical = std::numbers::pi * std::sqrt(2 * steel_modulus / yield);
  const auto load = [&](double slenderness) {
    return buckling_load(round_strut(diameter, 0.0, slenderness * radius, 1.0, steel_modulus, yield));
  };
  EXPECT_NEAR(load(critical), 0.5 * area * yield, 1e-9 * area * yield);
  const double h = 1e-4 * critical;
  const double left = (load(critical) - load(critical - h)) / h,
               right = (load(critical + h) - load(critical)) / h;
  EXPECT_NEAR(left, right, 1e-3 * std::abs(left));
  EXPECT_NEAR(load(0.5 * critical), area * yield * (1 - 0.125), 1e-9 * area * yield);
  EXPECT_EQ(load(0.0), area * yield);
  EXPECT_LT(load(0.5 * critical),
            euler_load(round_strut(diameter, 0.0, 0.5 * critical * radius, 1.0, steel_modulus, yield)));
}

// Euler's cases: a jack free at the top bears a quarter of what it bears pinned at both ends.
TEST(buckling, the_way_the_ends_are_held_counts_by_its_square) {
  const auto at_factor = [](double k) {
    return euler_load(round_strut(30 * si::mm, 10 * si::mm, 1.0, k, steel_modulus, 350e6));
  };
  EXPECT_NEAR(at_factor(2.0), 0.25 * at_factor(1.0), 1e-6);
  EXPECT_NEAR(at_factor(0.5), 4.0 * at_factor(1.0), 1e-6);
  const double inertia = std::numbers::pi / 64 * (std::pow(0.03, 4) - std::pow(0.01, 4));
  EXPECT_CLOSE(at_factor(1.0), std::pow(std::numbers::pi, 2) * steel_modulus * inertia);
}

// Nothing is proved where the rod is not known.
TEST(buckling, a_rod_that_is_not_known_passes_no_proof) {
  Bench b;
  b.part("C1", "single_acting_cylinder", {{"bore", 50 * si::mm}, {"stroke", 0.2}, {"start_position", 0.1}});
  b.part("F1", "force", {{"force", 2 * si::kN}});
  b.join({"C1.rod", "F1.rod"});
  b.plug("C1.A");
  b.step("stand", 1.0);
  const Trace t = b.run({"C1.buckling_load", "C1.buckling_share"});
  EXPECT_EQ(last(t, "C1.buckling_load"), 0.0);
  EXPECT_EQ(last(t, "C1.buckling_share"), 1.0);
}

}  // namespace
}  // namespace poise
