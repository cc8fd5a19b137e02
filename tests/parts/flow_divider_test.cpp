// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>

#include <cmath>

#include "parts/laws.hpp"
#include "support/trade.hpp"

namespace poise::workshop {
namespace {

constexpr double rated = 10 * si::litre_per_minute, error = 0.05;

/// A pump feeds a divider, whose outlets are held up by two reliefs.
Trace divided(double flow, double at_a, double at_b, double ratio = 0.5) {
  Bench b;
  add_power_unit(b, flow, {.cracking = 240 * si::bar, .rated_flow = 12 * si::litre_per_minute});
  b.set("P1", "running", 1.0);
  b.part("H1", "hose", {{"bore", 10 * si::mm}, {"length", 3.0}});
  b.part("D1", "flow_divider",
         {{"rated_flow", rated},
          {"minimum_flow", 2 * si::litre_per_minute},
          {"error", error},
          {"ratio", ratio}});
  b.part("HA", "hose", {{"bore", 10 * si::mm}, {"length", 2.0}});
  b.part("HB", "hose", {{"bore", 10 * si::mm}, {"length", 2.0}});
  b.part("RA", "relief", {{"setting", at_a}, {"rated_flow", rated}});
  b.part("RB", "relief", {{"setting", at_b}, {"rated_flow", rated}});
  b.join({"V1.P", "H1.A"});
  b.join({"H1.B", "D1.P"});
  b.join({"D1.A", "HA.A"});
  b.join({"D1.B", "HB.A"});
  b.join({"HA.B", "RA.P"});
  b.join({"HB.B", "RB.P"});
  b.join({"RA.T", "RB.T", "T1.T"});
  b.step("run", 3.0);
  Trace t = b.run({"D1.A.flow", "D1.B.flow", "D1.P.flow", "D1.P.pressure", "D1.A.pressure", "D1.B.pressure",
                   "D1.spool", "RA.P.flow", "RB.P.flow"});
  expect_closed_books(t);
  return t;
}

double mass(const Trace& t, const char* flow, const char* pressure) {
  return std::abs(last(t, flow)) * Oil{OilData{}}.density(last(t, pressure)).value;
}
double share_of_a(const Trace& t) {
  const double a = mass(t, "D1.A.flow", "D1.A.pressure"), b = mass(t, "D1.B.flow", "D1.B.pressure");
  return a / (a + b);
}

TEST(flow_divider, splits_in_its_ratio_at_equal_pressures) {
  EXPECT_NEAR(share_of_a(divided(6 * si::litre_per_minute, 50 * si::bar, 50 * si::bar)), 0.5, 1e-4);
  // At other shares the reliefs' own override makes the pressures a little unequal.
  EXPECT_NEAR(share_of_a(divided(6 * si::litre_per_minute, 50 * si::bar, 50 * si::bar, 0.3)), 0.3,
              0.3 * error);
}

// Trade: a spool divider errs by 5 % (a trade magazine's e-book on fluid-power circuits, book 2).
TEST(flow_divider, keeps_its_error_whatever_the_outlets_pressures) {
  const Trace t = divided(6 * si::litre_per_minute, 20 * si::bar, 200 * si::bar);
  const double a = share_of_a(t);
  EXPECT_GT(a, 0.5);  // the outlet with the lower pressure gets more
  EXPECT_LE(a - 0.5, 0.5 * error);
  EXPECT_GT(a - 0.5, 0.7 * 0.5 * error);
  // At rest the spool stands at (u_A² − u_B²)/(4·error·√(ū⁴ + minimum⁴)).
  const Oil oil{OilData{}};
  const double at_inlet = oil.density(last(t, "D1.P.pressure")).value;
  const double u_a = 2 * mass(t, "D1.A.flow", "D1.A.pressure") / at_inlet,
               u_b = 2 * mass(t, "D1.B.flow", "D1.B.pressure") / at_inlet, mean = 0.5 * (u_a + u_b),
               least = 2 * si::litre_per_minute;
  const double spool =
      (u_a * u_a - u_b * u_b) / (4 * error * std::sqrt(std::pow(mean, 4) + std::pow(least, 4)));
  EXPECT_NEAR(last(t, "D1.spool"), spool, 2e-3);
  // And the drop to A is that of u_A through what the spool leaves open.
  const double x = 1.0 - last(t, "D1.spool"), k = 10 * si::bar / (1.1 * rated * rated);
  EXPECT_NEAR(last(t, "D1.P.pressure") - last(t, "D1.A.pressure"),
              k * (u_a * u_a + 0.1 * rated * u_a) / (x * x), 2e-3 * 180 * si::bar);
}

TEST(flow_divider, far_below_its_minimum_flow_gives_nearly_all_to_the_lower_pressure) {
  EXPECT_GT(share_of_a(divided(0.2 * si::litre_per_minute, 20 * si::bar, 60 * si::bar)), 0.9);
}

/// Oil comes back from two lines of unequal pressure through the divider to tank; returns the share from A.
double combined(double combining) {
  Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 20 * si::litre}});
  b.part("D1", "flow_divider",
         {{"rated_flow", rated},
          {"minimum_flow", 2 * si::litre_per_minute},
          {"error", error},
          {"combining", combining}});
  b.join({"D1.P", "T1.T"});
  for (const auto& [n, setting] : {std::pair{"A", 40 * si::bar}, std::pair{"B", 10 * si::bar}}) {
    const std::string i = n;
    b.part("P" + i, "pump",
           {{"flow", 30 * si::litre_per_minute}, {"rated_pressure", 250 * si::bar}, {"running", 1.0}});
    b.part("R" + i, "relief",
           {{"setting", setting}, {"rated_flow", 30 * si::litre_per_minute}, {"override", 0.05}});
    b.part("H" + i, "hose", {{"bore", 20 * si::mm}, {"length", 2.0}});
    b.join({"P" + i + ".P", "R" + i + ".P", "H" + i + ".A"});
    b.join({"H" + i + ".B", "D1." + i});
    b.join({"P" + i + ".S", "R" + i + ".T", "T1.T"});
  }
  b.step("back", 3.0);
  const Trace t = b.run({"D1.A.flow", "D1.B.flow", "D1.A.pressure", "D1.B.pressure"});
  expect_closed_books(t);
  return share_of_a(t);
}

TEST(flow_divider, holds_the_ratio_backwards_only_if_it_combines) {
  EXPECT_NEAR(combined(1.0), 0.5, 0.5 * error);
  EXPECT_GT(combined(0.0), 0.6);  // 40 to 10 bar: about two to one
}

}  // namespace
}  // namespace poise::workshop
