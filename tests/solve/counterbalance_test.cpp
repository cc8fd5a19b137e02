// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Counterbalance valves: holding, lowering, what opens them, what upsets them. Expected numbers from the
// balance of forces or from a printed source. 0.1 % is the bar.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "parts/counterbalance.hpp"
#include "support/trade.hpp"

namespace poise::workshop {
namespace {

constexpr double closed_form = 1e-3;
constexpr double psi = 6894.757293168;  // Pa (NIST SP 811)
constexpr double litres = si::litre_per_minute;

#define EXPECT_CLOSE(found, expected) EXPECT_NEAR(found, expected, closed_form* std::abs(expected))

/// Opening that a counterbalance valve goes to.
double counterbalanced(double load, double valve, double pilot, double vent, double chamber) {
  Bench b;
  b.part(
      "V1", "counterbalance",
      {{"setting", 195 * si::bar}, {"ratio", 3.0}, {"rated_flow", 20 * litres}, {"spring_chamber", chamber}});
  const Oil oil{OilData{}};
  const Counterbalance cb(b.values("V1"), oil);
  Here<Counterbalance, double> here;
  for (int i = 0; i < 4; ++i) {
    const double p = std::array{load, valve, pilot, vent}[i];
    here.oil[i] = {p, oil.density(p).value};
  }
  return cb.law(here).rate[0] * 10 * si::ms;
}

// Check value CB-03: load 150 bar, set to 1.3 times that, ratio 3: 195 bar, and the pilot opens it from 15
// bar on.
TEST(counterbalance, set_to_1_3_of_a_load_of_150_bar_needs_a_pilot_of_15_bar) {
  const double band = 0.05 * 195 * si::bar;
  EXPECT_EQ(counterbalanced(150 * si::bar, 0.0, 14.9 * si::bar, 0.0, 0.0), 0.0);
  EXPECT_NEAR(counterbalanced(150 * si::bar, 0.0, 15 * si::bar + 0.5 * band / 3.0, 0.0, 0.0), 0.5, 1e-9);
  EXPECT_EQ(counterbalanced(194.8 * si::bar, 0.0, 0.0, 0.0, 0.0), 0.0);
  EXPECT_NEAR(counterbalanced(195 * si::bar + 0.5 * band, 0.0, 0.0, 0.0, 0.0), 0.5, 1e-9);
}

// Physics contract §4: back pressure counts (1 + R) times, unless the spring chamber is vented.
TEST(counterbalance, back_pressure_counts_one_and_the_ratio_times_unless_vented) {
  const double back = 10 * si::bar, band = 0.05 * 195 * si::bar;
  const double half = 195 * si::bar + 0.5 * band;
  EXPECT_EQ(counterbalanced(half + 3.9 * back - 0.5 * band, back, 0.0, 0.0, 0.0), 0.0);
  EXPECT_NEAR(counterbalanced(half + 4.0 * back, back, 0.0, 0.0, 0.0), 0.5, 1e-9);
  EXPECT_NEAR(counterbalanced(half, back, 0.0, 0.0, 1.0), 0.5, 1e-9);
  EXPECT_NEAR(counterbalanced(half + 4.0 * back, 0.0, 0.0, back, 1.0), 0.5,
              1e-9);  // pressure in the vent counts
}

struct Lift {
  double bore = 60 * si::mm, rod = 40 * si::mm, load = 28 * si::kN, flow = 6 * litres;
  double setting = 130 * si::bar, ratio = 3.0, share = 0.3, back = 0.0;
  double vented = 0.0, damping = 6e4;
  double cap() const { return circle(bore); }
  double around_rod() const { return circle(bore) - circle(rod); }
};

/// A cylinder under a weight, lowered by the pump over the rod side: the counterbalance valve stands at the
/// cap side, its pilot on the rod side. `back`: a relief valve in the tank line that holds some pressure
/// behind it.
Bench lowering(const Lift& l) {
  Bench b;
  add_power_unit(b, l.flow, {.cracking = 180 * si::bar, .rated_flow = 20 * litres});
  b.part("V2", "directional_4_3",
         {{"centre", 3.0}, {"rated_flow", 60 * litres}, {"pressure_drop", 2 * si::bar}});
  b.part("V3", "counterbalance",
         {{"setting", l.setting},
          {"ratio", l.ratio},
          {"override", l.share},
          {"spring_chamber", l.vented},
          {"rated_flow", 30 * litres},
          {"response_time", 10 * si::ms}});
  b.part("C1", "double_acting_cylinder",
         {{"bore", l.bore},
          {"rod", l.rod},
          {"stroke", 0.5},
          {"start_position", 0.45},
          {"friction", 0.0},
          {"seal_friction", 0.0},
          {"damping", l.damping}});
  b.part("M1", "mass", {{"mass", l.load / si::gravity}});
  b.part("V4", "relief", {{"setting", std::max(l.back, 0.5 * si::bar)}, {"rated_flow", 60 * litres}});
  b.part("G1", "gauge",
         {{"range", 250 * si::bar}, {"port_volume", 0.5 * si::litre}});  // the hose to the rod side
  b.join({"P1.P", "V2.P"});
  b.join({"V2.A", "V3.B"});
  b.join({"V3.A", "C1.A"});
  b.join({"V2.B", "C1.B", "V3.X", "G1.M"});
  b.join({"V2.T", "V4.P"});
  b.join({"V4.T", "T1.T"});
  if (l.vented == 1.0) b.join({"V3.Y", "T1.T"});
  b.join({"C1.rod", "M1.rod"});
  b.step("hold", 2.0, {{"P1", "running", 1.0}});
  b.step("lower", 3.0, {{"V2", "position", 2.0, 0.1}});
  b.step("hold again", 2.0, {{"V2", "position", 0.0, 0.1}});
  return b;
}

// Force balance, cap side: p_cap = p_load + p_X/φ, so the valve opens from p_X = (p_set − p_load)/(R + 1/φ)
// on, plus the share of its band that the flow needs, plus what stands behind it: (1 + R)·p_back.
TEST(counterbalance, lowers_an_overrunning_load_at_the_pumps_pace_and_with_the_pilot_of_the_formula) {
  Lift lift;
  for (const double back : {0.0, 8 * si::bar}) {
    for (const double vented : {0.0, 1.0}) {
      lift.back = back;
      lift.vented = vented;
      const Bench b = lowering(lift);
      const Trace t =
          b.run({"C1.A.pressure", "C1.B.pressure", "C1.speed", "C1.position", "V3.B.pressure", "V3.opening"});
      expect_closed_books(t);
      // Held: it does not sink.
      EXPECT_NEAR(at(t, "C1.position", 1.95), at(t, "C1.position", 1.0), 1e-6);
      const double when = 4.9;
      // Lowered: as fast as the pump fills the rod side, and never faster: the rod side stays pressed.
      const Oil oil{b.plan.oil};
      const double pilot = at(t, "C1.B.pressure", when);
      const double speed = -lift.flow * oil.density_at_zero() / oil.density(pilot).value / lift.around_rod();
      EXPECT_CLOSE(at(t, "C1.speed", when), speed);
      const double phi = lift.cap() / lift.around_rod(),
                   load = (lift.load + lift.damping * speed) / lift.cap();
      const double behind = at(t, "V3.B.pressure", when), x = at(t, "V3.opening", when);
      const double counted = vented == 1.0 ? 0.0 : (1.0 + lift.ratio) * behind;
      const double expected =
          (lift.setting + x * lift.share * lift.setting + counted - load) / (lift.ratio + 1.0 / phi);
      EXPECT_CLOSE(pilot, expected);
      EXPECT_GT(pilot, 0.0);
      // Stopped: it holds again.
      EXPECT_NEAR(last(t, "C1.position"), at(t, "C1.position", 6.5), 1e-6);
    }
  }
}

// Check values CB-01 and CB-02 (Trinkel, fluid power e-book, Book 2, ch. 5, fig. 5-13): vertical press,
// cap 50.27 in2 at 2,000 psi, platen of 15,000 lbf, rod side 26.51 in2 behind an internally piloted valve at
// 716 psi, 1.265 times the load's pressure: 96,559 lbf are left to work with.
TEST(counterbalance, without_an_outside_pilot_takes_its_setting_from_the_force_of_a_press) {
  constexpr double inch = 0.0254, lbf = 4.4482216152605;  // NIST SP 811
  const double cap = 50.27 * inch * inch, around_rod = 26.51 * inch * inch;
  const double setting = 716 * psi, platen = 15000 * lbf, left = 96559 * lbf;
  EXPECT_NEAR(setting / (platen / around_rod), 1.265, 1e-3);
  Bench b;
  add_power_unit(b, 10 * litres, {.cracking = 200 * si::bar, .rated_flow = 30 * litres});
  b.part("G1", "gauge", {{"range", 400 * si::bar}, {"port_volume", 0.5 * si::litre}});
  b.part("V3", "counterbalance",
         {{"setting", setting}, {"ratio", 0.0}, {"override", 0.02}, {"rated_flow", 200 * litres}});
  b.part("C1", "double_acting_cylinder",
         {{"bore", std::sqrt(4.0 * cap / std::numbers::pi)},
          {"rod", std::sqrt(4.0 * (cap - around_rod) / std::numbers::pi)},
          {"stroke", 0.2},
          {"start_position", 0.1},
          {"friction", 0.0},
          {"seal_friction", 0.0},
          {"damping", 5e4}});
  b.part("M1", "mass", {{"mass", platen / si::gravity}, {"slope", -90 * si::degree}});
  b.part("F1", "force", {{"force", left}});
  b.join({"P1.P", "C1.A", "G1.M"});
  b.join({"C1.B", "V3.A"});
  b.join({"V3.B", "V3.X", "T1.T"});
  b.join({"C1.rod", "M1.rod", "F1.rod"});
  b.step("press", 5.0, {{"P1", "running", 1.0}});
  const Trace t = b.run({"C1.A.pressure", "C1.B.pressure", "C1.speed"});
  expect_closed_books(t);
  ASSERT_GT(last(t, "C1.speed"), 0.004);
  EXPECT_CLOSE(last(t, "C1.A.pressure"), 2000 * psi);
  EXPECT_NEAR(last(t, "C1.B.pressure"), setting, 0.02 * setting);
}

// Vendors' application notes: a high ratio bounces where a low one lets the same load down evenly. With
// little to damp it.
TEST(counterbalance, a_high_ratio_bounces_where_a_low_one_is_steady) {
  const auto swing = [](double ratio) {
    Lift lift;
    lift.damping = 2e4;
    lift.ratio = ratio;
    const Trace t = lowering(lift).run({"C1.speed"});
    double low = no_limit, high = -no_limit;
    for (double time = 4.5; time < 4.99; time += 0.001) {
      low = std::min(low, at(t, "C1.speed", time));
      high = std::max(high, at(t, "C1.speed", time));
    }
    return (high - low) / (lift.flow / lift.around_rod());
  };
  EXPECT_LT(swing(1.0), 0.01);
  EXPECT_GT(swing(5.0), 0.2);
}

// The same load on a plain check of the directional valve runs away: the pump cannot follow and the rod side
// starves.
TEST(counterbalance, without_it_the_load_runs_ahead_of_the_pump) {
  Lift lift;
  Bench b = lowering(lift);
  b.set("V3", "least_opening", 1.0);  // stuck open
  b.set("V2", "centre", 0.0);         // the spool alone holds it until it is lowered
  const Trace t = b.run({"C1.B.pressure", "C1.speed"});
  expect_closed_books(t);
  EXPECT_LT(lowest(t, "C1.B.pressure"), -0.5 * si::bar);
  EXPECT_LT(lowest(t, "C1.speed"), -2.0 * lift.flow / lift.around_rod());
}

}  // namespace
}  // namespace poise::workshop
