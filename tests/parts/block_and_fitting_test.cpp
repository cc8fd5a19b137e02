// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Parts that are always open: manifold, fitting, cooler.
#include <gtest/gtest.h>

#include <cmath>

#include "support/one_part.hpp"
#include "support/trade.hpp"

namespace poise::workshop {
namespace {

constexpr double rated = 12 * si::litre_per_minute;

TEST(manifold, from_port_to_port_loses_two_drillings) {
  Bench b;
  b.plan.oil.air = 1e-5;  // so that the flow is the pump's to a ten-thousandth
  add_power_unit(b, rated, {.cracking = 100 * si::bar, .rated_flow = 20 * si::litre_per_minute});
  b.set("P1", "running", 1.0);
  b.part("M1", "manifold",
         {{"rated_flow", rated}, {"pressure_drop", 1 * si::bar}, {"volume", 100 * si::cm3}});
  b.part("G1", "gauge", {{"range", 100 * si::bar}});
  b.join({"V1.P", "M1.A"});
  b.join({"M1.P", "G1.M"});
  b.join({"M1.B", "T1.T"});
  b.step("run", 2.0);
  const Trace t = b.run({"M1.A.pressure", "M1.P.pressure", "M1.B.pressure", "M1.C.pressure", "M1.A.flow"});
  expect_closed_books(t);
  EXPECT_NEAR(last(t, "M1.P.pressure"), 1 * si::bar, 1e-3 * si::bar);
  EXPECT_NEAR(last(t, "M1.A.pressure"), 2 * si::bar, 2e-3 * si::bar);
  EXPECT_NEAR(last(t, "M1.C.pressure"), last(t, "M1.P.pressure"), 1e-3 * si::bar);  // plugged
}

TEST(manifold, holds_its_volume_of_oil) {
  OnePart m("manifold", {{"rated_flow", rated}, {"volume", 100 * si::cm3}});
  const Laws laws = m.kind().make(m.values(), m.oil());
  double sum = 0.0;
  for (int k = 0; k < 5; ++k) sum += laws.space(laws.numbers.get(), k).volume;
  EXPECT_DOUBLE_EQ(sum, 100 * si::cm3);
}

TEST(fitting, loses_its_coefficient_of_the_speed_pressure_and_a_laminar_tail) {
  const double bore = 6 * si::mm;
  OnePart f("fitting", {{"bore", bore}, {"loss", 1.5}, {"laminar_loss", 800.0}});
  for (double drop : {100.0, 0.05 * si::bar, 5 * si::bar}) {
    f.press(0, drop);
    const double rho = f.oil().density(drop).value, v = f.flow(0) / circle(bore),
                 re = v * bore / f.oil().viscosity();
    EXPECT_NEAR((1.5 + 800.0 / re) * rho * v * v / 2, drop, 1e-9 * drop);
  }
}

TEST(cooler, takes_its_drop_and_keeps_what_it_carries_off_for_later) {
  OnePart c("cooler", {{"rated_flow", rated}, {"pressure_drop", 0.5 * si::bar}, {"conductance", 120.0}});
  EXPECT_NEAR(c.drop_for(rated), 0.5 * si::bar, 1.0);
  EXPECT_NEAR(c.drop_for(0.5 * rated), 0.5 * si::bar * (0.25 + 0.05) / 1.1, 1.0);
  EXPECT_DOUBLE_EQ(c.values()["conductance"], 120.0);
  EXPECT_DOUBLE_EQ(c.values()["coolant_temperature"], 293.15);
}

}  // namespace
}  // namespace poise::workshop
