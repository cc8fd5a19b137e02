// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Accumulators against the gas law and the trade's habits. 0.1 % is the bar.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/trade.hpp"

namespace poise {
namespace {

using namespace workshop;

constexpr double closed_form = 1e-3;
constexpr double lpm = si::litre_per_minute;
constexpr double inch = 0.0254, psi = 6894.757, gallon = 231 * inch * inch * inch;

#define EXPECT_CLOSE(found, expected) EXPECT_NEAR(found, expected, closed_form* std::abs(expected))

void add_pump_and_accumulator(Bench& b, double flow, Bench::Numbers accumulator) {
  b.part("T1", "reservoir", {{"usable_oil", 200 * si::litre}});
  b.part("P1", "pump", {{"flow", flow}, {"volumetric_efficiency", 1.0}, {"rated_pressure", 315 * si::bar}});
  b.part("Z1", "accumulator", accumulator);
  b.join({"T1.T", "P1.S"});
  b.join({"P1.P", "Z1.A"});
}

double oil_between(double low, double high, double gas_volume, double precharge, double exponent) {
  Bench b;
  add_pump_and_accumulator(b, 200 * lpm,
                           {{"gas_volume", gas_volume}, {"precharge", precharge}, {"exponent", exponent}});
  b.part("V1", "relief", {{"setting", 220 * si::bar}, {"rated_flow", 400 * lpm}});
  b.join({"P1.P", "V1.P"});
  b.join({"V1.T", "T1.T"});
  b.step("charge", 25.0, {{"P1", "running", 1.0}});
  const Trace t = b.run({"Z1.gas_pressure", "Z1.oil_volume"});
  expect_closed_books(t);
  const auto oil_at = [&](double p) { return at(t, "Z1.oil_volume", first_above(t, "Z1.gas_pressure", p)); };
  return oil_at(high) - oil_at(low);
}

// AC-03 (J. Sullivan, Fluid Power: Theory and Applications, 4th ed., example 12.4): 20.05 US gal give 5 gal
// between 3000 and 2000 psi, precharged to 1500 psi, slowly. AC-04 (example 12.5): 1155 in3 quickly take
// 5660.8 in3.
TEST(accumulator, gives_the_oil_of_the_gas_law_between_two_pressures) {
  EXPECT_CLOSE(oil_between(2000 * psi, 3000 * psi, 20.04924 * gallon, 1500 * psi, 1.0), 5 * gallon);
  EXPECT_CLOSE(oil_between(2000 * psi, 3000 * psi, 5660.756 * inch * inch * inch, 1500 * psi, 1.4),
               1155 * inch * inch * inch);
}

// Trade rule "quick check of the precharge": at the start the gauge jumps to the precharge and then climbs;
// after the stop it sinks to it and then drops, and the accumulator is empty.
TEST(accumulator, shows_its_precharge_at_the_start_and_at_the_end) {
  Bench b;
  const double precharge = 90 * si::bar, volume = 1 * si::litre, flow = 4 * lpm;
  add_pump_and_accumulator(b, flow, {{"gas_volume", volume}, {"precharge", precharge}, {"exponent", 1.2}});
  b.part("V1", "check", {{"rated_flow", 20 * lpm}});
  b.part("N1", "needle", {{"bore", 1.5 * si::mm}, {"turns", 0.0}});
  b.plan.joints.pop_back();
  b.join({"P1.P", "V1.A"});
  b.join({"V1.B", "Z1.A", "N1.A"});
  b.join({"N1.B", "T1.T"});
  b.step("charge", 6.0, {{"P1", "running", 1.0}});
  b.step("stop", 1.0, {{"P1", "running", 0.0}});
  b.step("bleed", 10.0, {{"N1", "turns", 2.0}});
  const Trace t = b.run({"Z1.A.pressure", "Z1.oil_volume", "Z1.gas_pressure"});
  expect_closed_books(t);

  // It rises to the precharge by the oil in the neck alone, and from there on bends to a climb.
  const double jump = first_above(t, "Z1.A.pressure", precharge);
  EXPECT_LT(at(t, "Z1.oil_volume", jump), 1e-3 * volume);
  EXPECT_LT(jump, 0.3);
  const double climbing = at(t, "Z1.A.pressure", jump + 0.5) - precharge;
  EXPECT_LT(climbing, 0.1 * precharge);
  // What the pump has delivered until 6 s is in the gas: (p0 + atm)·(V0/V)^n.
  const double oil = at(t, "Z1.oil_volume", 6.0);
  EXPECT_GT(oil, 0.35 * volume);
  EXPECT_CLOSE(at(t, "Z1.gas_pressure", 6.0),
               (precharge + si::atmosphere) * std::pow(volume / (volume - oil), 1.2) - si::atmosphere);
  // It comes to its end at the precharge (neck and needle flow by then: 2 % of it), and then to nothing.
  const auto empty = std::ranges::find_if(
      t.events, [](const Event& e) { return e.sentence.find("is empty of oil") != std::string::npos; });
  ASSERT_NE(empty, t.events.end());
  EXPECT_NEAR(at(t, "Z1.A.pressure", empty->time), precharge, 0.02 * precharge);
  EXPECT_LT(last(t, "Z1.A.pressure"), 1 * si::bar);
}

// A piston rubs: filling stands above the gas by its friction and giving back stands below it. Common
// practice.
TEST(accumulator, piston_stands_above_the_gas_while_it_fills_and_below_while_it_empties) {
  Bench b;
  add_pump_and_accumulator(b, 2 * lpm,
                           {{"separator", 1.0},
                            {"gas_volume", 1 * si::litre},
                            {"precharge", 60 * si::bar},
                            {"friction", 4 * si::bar},
                            {"pressure_drop", 0.05 * si::bar}});
  b.part("N1", "needle", {{"bore", 0.6 * si::mm}, {"turns", 0.0}});
  b.join({"P1.P", "N1.A"});
  b.join({"N1.B", "T1.T"});
  b.step("fill", 8.0, {{"P1", "running", 1.0}});
  b.step("give", 4.0, {{"P1", "running", 0.0}, {"N1", "turns", 8.0}});
  const Trace t = b.run({"Z1.A.pressure", "Z1.gas_pressure"});
  expect_closed_books(t);
  const auto over_gas = [&](double time) {
    return at(t, "Z1.A.pressure", time) - at(t, "Z1.gas_pressure", time);
  };
  EXPECT_NEAR(over_gas(6.0), 4 * si::bar, 0.01 * 4 * si::bar);
  EXPECT_NEAR(over_gas(10.0), -4 * si::bar, 0.01 * 4 * si::bar);
}

// Pumped beyond what it can hold, the separator meets its end, and the pressure runs off.
TEST(accumulator, meets_its_end_when_the_gas_is_pressed_to_the_least) {
  Bench b;
  add_pump_and_accumulator(
      b, 2 * lpm,
      {{"gas_volume", 0.1 * si::litre}, {"precharge", 20 * si::bar}, {"exponent", 1.0}, {"least_gas", 0.25}});
  b.part("V1", "relief", {{"setting", 200 * si::bar}, {"rated_flow", 20 * lpm}});
  b.join({"P1.P", "V1.P"});
  b.join({"V1.T", "T1.T"});
  b.step("fill", 5.0, {{"P1", "running", 1.0}});
  const Trace t = b.run({"Z1.A.pressure", "Z1.gas_pressure", "Z1.gas_volume"});
  expect_closed_books(t);
  EXPECT_GT(last(t, "Z1.A.pressure"), 200 * si::bar);
  EXPECT_NEAR(last(t, "Z1.gas_volume"), 0.025 * si::litre, 0.01 * 0.025 * si::litre);
  EXPECT_NEAR(last(t, "Z1.gas_pressure"), 4 * (20 * si::bar + si::atmosphere) - si::atmosphere, 1 * si::bar);
  EXPECT_TRUE(std::ranges::any_of(
      t.events, [](const Event& e) { return e.sentence.find("pressed to the least") != std::string::npos; }));
}

}  // namespace
}  // namespace poise
