// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>

#include <algorithm>

#include "support/one_part.hpp"
#include "support/trade.hpp"

namespace poise::workshop {
namespace {

constexpr double rated = 12 * si::litre_per_minute, clean_drop = 1 * si::bar;

double expected_drop(double flow, double clogging) {
  const double r = flow / rated;
  return clean_drop * (0.3 * r * r + 0.7 * r / (1 - clogging));
}

TEST(filter, takes_its_clean_drop_and_more_as_it_clogs) {
  for (double clogging : {0.0, 0.5, 0.8}) {
    OnePart f("filter", {{"rated_flow", rated}, {"pressure_drop", clean_drop}, {"clogging", clogging}});
    for (double flow : {0.25 * rated, rated, 1.5 * rated})
      EXPECT_NEAR(f.drop_for(flow), expected_drop(flow, clogging), 1e-6 * clean_drop);
  }
}

TEST(filter, in_thicker_oil_takes_more_through_its_element_only) {
  OnePart f(
      "filter",
      {{"rated_flow", rated}, {"pressure_drop", clean_drop}, {"measured_viscosity", 23 * si::mm2_per_s}});
  const double thicker = f.oil().viscosity() / (23 * si::mm2_per_s);
  EXPECT_NEAR(f.drop_for(rated), clean_drop * (0.3 + 0.7 * thicker), 1e-6 * clean_drop);
}

/// A pump empties through a return filter that clogs step by step.
Trace returned(bool with_bypass) {
  Bench b;
  add_power_unit(b, rated, {.cracking = 100 * si::bar, .rated_flow = 20 * si::litre_per_minute});
  b.set("P1", "running", 1.0);
  b.part("H1", "hose", {{"bore", 12 * si::mm}, {"length", 2.0}});
  b.part("F1", "filter", {{"rated_flow", rated}, {"pressure_drop", clean_drop}});
  if (with_bypass) b.set("F1", "bypass_pressure", 3 * si::bar);
  b.join({"V1.P", "H1.A"});
  b.join({"H1.B", "F1.A"});
  b.join({"F1.B", "T1.T"});
  b.step("clean", 1.0);
  b.step("half", 1.0, {{"F1", "clogging", 0.5, 0.5}});
  b.step("full", 1.0, {{"F1", "clogging", 0.95, 0.5}});
  Trace t = b.run({"F1.drop", "F1.unfiltered", "F1.A.flow"});
  expect_closed_books(t);
  return t;
}

TEST(filter, bypass_opens_when_it_clogs_and_keeps_the_drop_down) {
  const Trace t = returned(true);
  EXPECT_NEAR(at(t, "F1.drop", 0.99), expected_drop(at(t, "F1.A.flow", 0.99), 0.0), 1e-3 * clean_drop);
  EXPECT_NEAR(at(t, "F1.drop", 1.99), expected_drop(at(t, "F1.A.flow", 1.99), 0.5), 1e-3 * clean_drop);
  EXPECT_EQ(at(t, "F1.unfiltered", 1.99), 0.0);
  const auto opens =
      std::ranges::find_if(t.events, [](const auto& e) { return e.sentence == "F1 bypass opens"; });
  ASSERT_NE(opens, t.events.end());
  EXPECT_NEAR(at(t, "F1.drop", opens->time), 3 * si::bar, 1e-3 * 3 * si::bar);
  EXPECT_GT(last(t, "F1.unfiltered"), 0.3 * rated);
  EXPECT_LT(last(t, "F1.drop"), 4.5 * si::bar);  // bypass fully open
}

TEST(filter, without_a_bypass_backs_the_line_up) {
  const Trace t = returned(false);
  EXPECT_NEAR(last(t, "F1.drop"), expected_drop(last(t, "F1.A.flow"), 0.95), 1e-3 * last(t, "F1.drop"));
  EXPECT_GT(last(t, "F1.drop"), 13 * si::bar);
}

}  // namespace
}  // namespace poise::workshop
