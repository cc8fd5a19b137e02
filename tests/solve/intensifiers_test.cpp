// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Intensifiers against the ratio of their areas and printed examples. 0.1 % is the bar.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "parts/laws.hpp"
#include "parts/monotone_curve.hpp"
#include "support/trade.hpp"

namespace poise {
namespace {

using namespace workshop;

constexpr double closed_form = 1e-3;
constexpr double lpm = si::litre_per_minute, inch = 0.0254, psi = 6894.757;

#define EXPECT_CLOSE(found, expected) EXPECT_NEAR(found, expected, closed_form* std::abs(expected))

// MI-03 (Esposito, Fluid Power with Applications, 6th ed., example 11-1): 5:1 makes 2500 psi of 500 psi, and
// a fifth of the flow. While the plunger moves, B gives a fifth of the volume that A takes.
TEST(intensifier, multiplies_the_pressure_and_divides_the_flow_by_its_ratio) {
  Bench b;
  b.plan.oil.air = 1e-5;
  add_power_unit(b, 4 * lpm, {.cracking = 500 * psi, .rated_flow = 60 * lpm, .override_share = 0.01});
  b.part("I1", "intensifier",
         {{"ratio", 5.0},
          {"plunger", 20 * si::mm},
          {"stroke", 0.15},
          {"friction", 0.0},
          {"seal_friction", 0.0},
          {"damping", 2e4}});
  b.part("C1", "single_acting_cylinder",
         {{"bore", 40 * si::mm},
          {"stroke", 0.012},
          {"friction", 0.0},
          {"seal_friction", 0.0},
          {"damping", 5e3}});
  b.join({"P1.P", "I1.A"});
  b.join({"I1.R", "T1.T"});
  b.join({"I1.B", "C1.A"});
  b.step("press", 6.0, {{"P1", "running", 1.0}});
  const Trace t =
      b.run({"I1.A.pressure", "I1.B.pressure", "I1.R.pressure", "I1.speed", "C1.speed", "C1.position"});
  expect_closed_books(t);
  ASSERT_GT(last(t, "C1.position"), 0.012);
  EXPECT_NEAR(last(t, "I1.A.pressure"), 500 * psi, 0.01 * 500 * psi);
  EXPECT_CLOSE(last(t, "I1.B.pressure"), 5.0 * last(t, "I1.A.pressure"));
  const double early = 0.8;  // on its free way, where pressures are next to nothing and steady
  ASSERT_LT(at(t, "C1.position", early), 0.011);
  EXPECT_CLOSE(at(t, "I1.speed", early) * 5.0 * circle(20 * si::mm), 4 * lpm);
  EXPECT_CLOSE(at(t, "C1.speed", early) * circle(40 * si::mm), 4 * lpm / 5.0);
}

// MI-04 (T. H. Wentzell, Machine Design, example 10.2): 4 in on 1 in makes 1600 psi of 100 psi; a 3 in ram
// presses with 11,310 lbf, and 4 in of plunger move it by 4/9 in, less what the oil is squeezed by.
TEST(intensifier, moves_a_ram_by_the_areas_and_presses_it_by_the_ratio) {
  Bench b;
  b.plan.oil.air = 1e-5;
  add_power_unit(b, 4 * lpm, {.cracking = 100 * psi, .rated_flow = 400 * lpm, .override_share = 0.005});
  b.part("I1", "intensifier",
         {{"ratio", 16.0},
          {"plunger", 1 * inch},
          {"stroke", 4 * inch},
          {"return_chamber", 0.0},
          {"friction", 0.0},
          {"seal_friction", 0.0},
          {"dead_volume", 1 * si::cm3}});
  b.part("C1", "single_acting_cylinder",
         {{"bore", 3 * inch},
          {"stroke", 2 * inch},
          {"friction", 0.0},
          {"seal_friction", 0.0},
          {"dead_volume", 1 * si::cm3}});
  b.part("S1", "spring", {{"rate", 11309.73 * 4.448222 / (0.4 * inch)}, {"damping", 1e5}});
  b.join({"P1.P", "I1.A"});
  b.join({"I1.B", "C1.A"});
  b.join({"C1.rod", "S1.rod"});
  b.step("press", 12.0, {{"P1", "running", 1.0}});
  const Trace t = b.run({"I1.A.pressure", "I1.B.pressure", "I1.position", "C1.position", "C1.force"});
  expect_closed_books(t);
  const double scale = last(t, "I1.A.pressure") / (100 * psi);  // the relief holds it within a hundredth
  EXPECT_NEAR(scale, 1.0, 0.01);
  EXPECT_CLOSE(last(t, "I1.B.pressure"), 1600 * psi * scale);
  EXPECT_CLOSE(last(t, "C1.force"), 11309.73 * 4.448222 * scale);
  // Mass in B: what was there at no pressure is there at 1600 psi.
  const Oil oil{b.plan.oil};
  const double held = 2 * si::cm3 + circle(1 * inch) * 4 * inch;
  const double squeezed = held * (1 - oil.density_at_zero() / oil.density(last(t, "I1.B.pressure")).value);
  EXPECT_CLOSE(last(t, "C1.position"), last(t, "I1.position") / 9.0 - squeezed / circle(3 * inch));
}

/// A pump on a relief at A, a relief at B, and a cycling intensifier between.
Bench cycling(double supply, double held, Bench::Numbers numbers, double pump_flow = 12 * lpm) {
  Bench b;
  add_power_unit(b, pump_flow, {.cracking = supply, .rated_flow = 200 * lpm, .override_share = 0.01});
  b.part("H1", "hose", {{"bore", 10 * si::mm}, {"length", 1.0}});
  b.part("I1", "cycling_intensifier", numbers);
  b.part("H2", "hose", {{"bore", 6 * si::mm}, {"length", 1.0}});
  b.part("V2", "relief", {{"setting", held}, {"override", 0.01}, {"rated_flow", 200 * lpm}});
  b.join({"P1.P", "H1.A"});
  b.join({"H1.B", "I1.A"});
  b.join({"I1.R", "V2.T", "T1.T"});
  b.join({"I1.B", "H2.A"});
  b.join({"H2.B", "V2.P"});
  return b;
}

TEST(cycling_intensifier, pumps_itself_up_to_ratio_times_its_supply) {
  Bench b = cycling(100 * si::bar, 700 * si::bar,
                    {{"ratio", 4.0}, {"high_flow", 0.5 * lpm}, {"rated_flow", 20 * lpm}});
  b.step("press", 20.0, {{"P1", "running", 1.0}});
  const Trace t = b.run({"I1.A.pressure", "I1.B.pressure", "I1.end_pressure"});
  expect_closed_books(t);
  EXPECT_CLOSE(last(t, "I1.B.pressure"), 4.0 * last(t, "I1.A.pressure"));
  EXPECT_CLOSE(last(t, "I1.end_pressure"), 4.0 * last(t, "I1.A.pressure"));
}

// Delivering against 200 bar with the whole flow of a pump: B gets a quarter of the mass that A takes, R the
// rest, and A stands at a quarter of 200 bar and of what the cycling itself takes.
TEST(cycling_intensifier, takes_ratio_times_what_it_delivers_and_returns_the_rest) {
  const double flow = 2 * lpm;
  Bench b = cycling(
      250 * si::bar, 200 * si::bar,
      {{"ratio", 4.0}, {"high_flow", 0.5 * lpm}, {"high_drop", 80 * si::bar}, {"rated_flow", 20 * lpm}},
      flow);
  b.step("press", 5.0, {{"P1", "running", 1.0}});
  const Trace t =
      b.run({"I1.A.pressure", "I1.B.pressure", "I1.A.flow", "I1.B.flow", "I1.R.flow", "I1.high_flow"});
  expect_closed_books(t);
  const Oil oil{OilData{}};
  const double p_a = last(t, "I1.A.pressure"), p_b = last(t, "I1.B.pressure");
  const double in = last(t, "I1.A.flow") * oil.density(p_a).value;
  EXPECT_CLOSE(in, flow * oil.density_at_zero());
  EXPECT_CLOSE(-last(t, "I1.B.flow") * oil.density(p_b).value, in / 4);
  EXPECT_CLOSE(-last(t, "I1.R.flow") * oil.density_at_zero(), in * 3 / 4);
  // 1.1·drop/high_drop = (Q/high_flow)² + 0.1·Q/high_flow
  const double q = in / 4 / oil.density(p_a).value / (0.5 * lpm),
               spare = 80 * si::bar * (q * q + 0.1 * q) / 1.1;
  EXPECT_CLOSE(p_a, (p_b + spare) / 4);
}

// While B is below A oil runs straight through: nothing comes out of R.
TEST(cycling_intensifier, fills_straight_through_its_check) {
  Bench b = cycling(
      150 * si::bar, 50 * si::bar,
      {{"ratio", 4.0}, {"high_flow", 0.5 * lpm}, {"rated_flow", 12 * lpm}, {"pressure_drop", 5 * si::bar}});
  b.step("fill", 3.0, {{"P1", "running", 1.0}});
  const Trace t = b.run({"I1.A.pressure", "I1.B.pressure", "I1.B.flow", "I1.R.flow"});
  expect_closed_books(t);
  const Oil oil{OilData{}};
  EXPECT_EQ(last(t, "I1.R.flow"), 0.0);
  EXPECT_CLOSE(-last(t, "I1.B.flow") * oil.density(last(t, "I1.A.pressure")).value,
               12 * lpm * oil.density_at_zero());
}

// By the datasheet's curve for 100 bar at A: at 200 bar what the curve says there.
TEST(cycling_intensifier, follows_its_delivery_curve) {
  Bench b = cycling(100 * si::bar, 200 * si::bar,
                    {{"ratio", 4.0}, {"rated_flow", 20 * lpm}, {"curve_pressure", 100 * si::bar}});
  b.points("I1", "delivery_curve",
           {{100 * si::bar, 1.2 * lpm}, {250 * si::bar, 0.6 * lpm}, {380 * si::bar, 0.1 * lpm}});
  b.step("press", 5.0, {{"P1", "running", 1.0}});
  const Trace t = b.run({"I1.A.pressure", "I1.B.pressure", "I1.high_flow"});
  expect_closed_books(t);
  const MonotoneCurve by_spare(
      Points{{0.0, 0.0}, {20 * si::bar, 0.1 * lpm}, {150 * si::bar, 0.6 * lpm}, {300 * si::bar, 1.2 * lpm}});
  EXPECT_CLOSE(last(t, "I1.high_flow"),
               by_spare.look(4 * last(t, "I1.A.pressure") - last(t, "I1.B.pressure")).value);
}

}  // namespace
}  // namespace poise
