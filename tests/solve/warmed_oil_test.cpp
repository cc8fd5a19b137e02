// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Trapped oil that sun or machine warm.
#include <gtest/gtest.h>

#include <cmath>

#include "parts/laws.hpp"
#include "support/trade.hpp"

namespace poise::workshop {
namespace {

constexpr double bore = 10 * si::mm, wall = 2 * si::mm, length = 3.0, rise = 20.0;

/// A tube shut at both ends, in the sun.
Bench shut_tube() {
  Bench b;
  b.part("L1", "tube", {{"bore", bore}, {"wall", wall}, {"length", length}});
  b.part("W1", "warmed_oil");
  b.join({"W1.A", "L1.A"});
  return b;
}

TEST(warmed_oil, trapped_oil_rises_by_expansion_over_compressibility) {
  Bench b = shut_tube();
  b.plan.oil.air = 1e-4;
  b.part("W2", "warmed_oil");
  b.join({"W2.A", "L1.B"});
  b.step("sun", 100.0, {{"W1", "rise", rise, 100.0}, {"W2", "rise", rise, 100.0}});
  const Trace trace = b.run({"L1.A.pressure"});
  // dp/dT = (β_T·V − 3·α_steel·V0)/(V/K_e + C_wall) (conservation of mass), by a thousand steps of the
  // midpoint rule.
  const OilData& data = b.plan.oil;
  const Oil oil(data);
  const double v0 = circle(bore) * length, c = v0 * bore / (wall * 210e9), alpha = 12e-6;
  const auto slope = [&](double p, double warmer) {
    const double t = data.temperature + warmer - si::zero_celsius - 15.0;
    const double expansion = data.expansivity / (1.0 - data.expansivity * t);
    const double v = v0 * (1.0 + 3.0 * alpha * warmer) + c * p;
    return (expansion * v - 3.0 * alpha * v0) / (v / oil.effective_modulus(p) + c);
  };
  double p = 0.0;
  constexpr int steps = 1000;
  for (int i = 0; i < steps; ++i) {
    const double dt = rise / steps, half = p + 0.5 * dt * slope(p, i * dt);
    p += dt * slope(half, (i + 0.5) * dt);
  }
  EXPECT_NEAR(last(trace, "L1.A.pressure"), p, 1e-3 * p);
  // Some 11 bar per kelvin in stiff walls (common practice).
  EXPECT_GT(p, rise * 8 * si::bar);
  EXPECT_LT(p, rise * 11.5 * si::bar);
  expect_closed_books(trace);
}

TEST(warmed_oil, what_cools_down_again_comes_back) {
  Bench b = shut_tube();
  b.plug("L1.B");
  b.step("sun", 50.0, {{"W1", "rise", rise, 50.0}});
  b.step("night", 50.0, {{"W1", "rise", 0.0, 50.0}});
  const Trace trace = b.run({"L1.A.pressure"});
  EXPECT_GT(highest(trace, "L1.A.pressure"), 20 * si::bar);
  EXPECT_NEAR(last(trace, "L1.A.pressure"), 0.0, 2000.0);
  expect_closed_books(trace);
}

TEST(warmed_oil, a_relief_valve_on_the_trapped_volume_holds_it_at_its_setting) {
  Bench b = shut_tube();
  b.part("T1", "reservoir", {{"usable_oil", 5 * si::litre}});
  b.part("V1", "relief", {{"setting", 60 * si::bar}, {"rated_flow", 1 * si::litre_per_minute}});
  b.join({"V1.P", "L1.B"});
  b.join({"V1.T", "T1.T"});
  b.step("sun", 100.0, {{"W1", "rise", 3 * rise, 100.0}});
  const Trace trace = b.run({"L1.A.pressure"});
  EXPECT_NEAR(highest(trace, "L1.A.pressure"), 60 * si::bar, 0.5 * si::bar);
  expect_closed_books(trace);
}

// Sun on the one side and a warm machine on the other are one warmth: their work is counted once.
TEST(warmed_oil, by_two_at_one_volume_is_warmed_by_their_sum) {
  const auto warmed = [](double one, double other) {
    Bench b = shut_tube();
    b.plug("L1.B");
    b.part("W2", "warmed_oil");
    b.join({"W2.A", "W1.A"});
    b.step("day", 50.0, {{"W1", "rise", one, 50.0}, {"W2", "rise", other, 50.0}});
    return b.run({"L1.A.pressure"});
  };
  const Trace both = warmed(0.25 * rise, 0.75 * rise), alone = warmed(rise, 0.0);
  EXPECT_NEAR(last(both, "L1.A.pressure"), last(alone, "L1.A.pressure"), 1000.0);
  EXPECT_NEAR(both.books.shaft, alone.books.shaft, 1e-3 * alone.books.shaft);
  expect_closed_books(both);
}

}  // namespace
}  // namespace poise::workshop
