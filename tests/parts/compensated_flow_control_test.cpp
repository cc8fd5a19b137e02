// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>

#include <cmath>

#include "support/one_part.hpp"
#include "support/trade.hpp"

namespace poise::workshop {
namespace {

constexpr double set_flow = 3 * si::litre_per_minute;

/// A pump with surplus, the flow control, a long cylinder (100 cm2) that pushes against a force.
Bench feed(double error, double compensation) {
  Bench b;
  add_power_unit(b, 20 * si::litre_per_minute,
                 {.cracking = 200 * si::bar, .rated_flow = 30 * si::litre_per_minute});
  b.set("P1", "running", 1.0);
  b.part("H1", "hose", {{"bore", 10 * si::mm}, {"length", 3.0}});
  b.part("Q1", "compensated_flow_control",
         {{"flow", 0.0}, {"error", error}, {"compensation", compensation}, {"turning_time", 0.1}});
  b.part("C1", "double_acting_cylinder", {{"bore", 0.1}, {"rod", 50 * si::mm}, {"stroke", 0.5}});
  b.part("F1", "force", {{"force", 20 * si::kN}});
  b.join({"V1.P", "H1.A"});
  b.join({"H1.B", "Q1.A"});
  b.join({"Q1.B", "C1.A"});
  b.join({"C1.B", "T1.T"});
  b.join({"C1.rod", "F1.rod"});
  b.step("shut", 1.0);
  b.step("light", 3.0, {{"Q1", "flow", set_flow}});
  b.step("heavy", 3.0, {{"F1", "force", 120 * si::kN}});
  b.step("slower", 2.0, {{"Q1", "flow", 0.5 * set_flow}});
  return b;
}

TEST(compensated_flow_control, holds_the_speed_whatever_the_load_and_follows_its_setting) {
  const Trace t = feed(0.0, 1.0).run({"Q1.A.flow", "Q1.A.pressure", "Q1.B.pressure", "C1.speed"});
  expect_closed_books(t);
  EXPECT_NEAR(at(t, "Q1.A.flow", 0.99), 0.0, 1e-12);
  ASSERT_LT(at(t, "Q1.B.pressure", 3.9), 40 * si::bar);
  ASSERT_GT(at(t, "Q1.B.pressure", 6.9), 140 * si::bar);
  EXPECT_NEAR(at(t, "Q1.A.flow", 3.9), set_flow, 1e-3 * set_flow);
  EXPECT_NEAR(at(t, "Q1.A.flow", 6.9), set_flow, 1e-3 * set_flow);
  EXPECT_NEAR(last(t, "Q1.A.flow"), 0.5 * set_flow, 1e-3 * 0.5 * set_flow);
  EXPECT_NEAR(at(t, "C1.speed", 3.9), set_flow / circle(0.1), 0.02 * set_flow / circle(0.1));  // oil expands
}

TEST(compensated_flow_control, with_a_stuck_compensator_is_a_plain_restriction_that_the_load_slows) {
  const Trace t = feed(0.0, 0.0).run({"Q1.A.flow", "Q1.A.pressure", "Q1.B.pressure"});
  expect_closed_books(t);
  const auto drop = [&](double time) { return at(t, "Q1.A.pressure", time) - at(t, "Q1.B.pressure", time); };
  // minimum_drop·(q² + 0.1·q)/1.1 = Δp at the set flow
  for (double time : {3.9, 6.9}) {
    const double q = at(t, "Q1.A.flow", time) / set_flow;
    EXPECT_NEAR((q * q + 0.1 * q) / 1.1 * 8 * si::bar, drop(time), 1e-3 * drop(time));
  }
  EXPECT_GT(at(t, "Q1.A.flow", 3.9), 1.2 * at(t, "Q1.A.flow", 6.9));
}

TEST(compensated_flow_control, below_its_minimum_drop_is_an_orifice) {
  OnePart q("compensated_flow_control", {{"flow", set_flow}, {"minimum_drop", 8 * si::bar}, {"error", 0.0}});
  q.press(0, 2 * si::bar);
  const double u = q.flow(0) / set_flow;
  EXPECT_NEAR((u * u + 0.1 * u) / 1.1, 2.0 / 8.0, 1e-9);
  EXPECT_NEAR(q.rate(), 0.0, 1e-12);  // and there the compensator stays open
}

TEST(compensated_flow_control, lets_its_flow_rise_by_its_error_and_closes_with_its_response_time) {
  OnePart q("compensated_flow_control", {{"flow", set_flow},
                                         {"error", 0.04},
                                         {"minimum_drop", 10 * si::bar},
                                         {"rated_pressure", 210 * si::bar},
                                         {"response_time", 0.02}});
  q.press(0, 115 * si::bar);  // half the rated pressure above the minimum
  const double open_flow = q.flow(0);
  const double held = 1.02 * set_flow / open_flow;
  EXPECT_NEAR(q.rate(), (held - 1.0) / 0.02, 1e-9 / 0.02);
  q.here.state[0] = held;
  EXPECT_NEAR(q.rate(), 0.0, 1e-9);
  EXPECT_NEAR(q.flow(0), 1.02 * set_flow, 1e-9 * set_flow);
}

TEST(compensated_flow_control, passes_freely_backwards_only_through_its_check) {
  const auto back = [](double fitted) {
    OnePart q("compensated_flow_control", {{"flow", 0.1 * set_flow},
                                           {"reverse_check", fitted},
                                           {"rated_flow", 4 * set_flow},
                                           {"pressure_drop", 5 * si::bar}});
    q.press(1, 5 * si::bar);
    return q.flow(1);
  };
  EXPECT_LT(back(0.0), 0.1 * set_flow);
  EXPECT_NEAR(back(1.0) - back(0.0), 4 * set_flow, 1e-6 * set_flow);
}

}  // namespace
}  // namespace poise::workshop
