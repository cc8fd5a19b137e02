// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Switches that release steps, and wiring that acts on switches through the whole cycle.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "parts/needle.hpp"
#include "support/trade.hpp"

namespace poise::workshop {
namespace {

constexpr double closed_form = 1e-3;
constexpr double flow = 0.5 * si::litre_per_minute;
constexpr double made_at = 160 * si::bar, broken_at = 120 * si::bar;

/// One volume: pump, pressure switch, a vessel of a litre that gives, a needle that leaks to tank, a relief
/// valve above all.
Bench vessel(double turns) {
  Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 10 * si::litre}});
  b.part("P1", "pump", {{"flow", flow}, {"volumetric_efficiency", 1.0}, {"rated_pressure", 250 * si::bar}});
  b.part("V1", "relief", {{"setting", 220 * si::bar}, {"rated_flow", 2 * flow}});
  b.part("S1", "pressure_switch", {{"setting", made_at}, {"reset", broken_at}});
  b.part("G1", "gauge", {{"range", 250 * si::bar}, {"give", 20 * si::cm3}, {"port_volume", 1 * si::litre}});
  b.part("N1", "needle", {{"bore", 0.5 * si::mm}, {"turns", turns}});
  b.join({"P1.P", "V1.P", "S1.M", "G1.M", "N1.A"});
  b.join({"T1.T", "P1.S", "V1.T", "N1.B"});
  return b;
}

/// What the vessel does by itself: mass against pressure, and how long it takes from one pressure to another,
/// by Simpson's rule over dm/(w_pump − w_leak).
struct Vessel {
  Oil oil;
  Needle needle;
  double volume = 0.0, wall = 0.0, turns;

  explicit Vessel(const Bench& b)
      : oil(b.plan.oil), needle(b.plan.parts[5].values, oil), turns(b.plan.parts[5].values["turns"]) {
    for (const OilNode& node : build(b.plan).nodes) {
      if (!node.free_surface) volume += node.volume, wall += node.wall;
    }
  }
  double mass(double p) const { return oil.density(p).value * (volume + wall * p); }
  double leak(double p) const {
    Here<Needle, double> here;
    here.oil = {OilHere<double>{p, oil.density(p).value}, OilHere<double>{0.0, oil.density(0.0).value}};
    here.input[0] = {turns, turns, 1.0};
    return needle.law(here).inflow[0];
  }
  double time(double from, double to, double pump) const {
    const int pieces = 2000;
    const double h = (to - from) / pieces, small = 1e-4 * std::abs(h);
    double sum = 0.0;
    for (int i = 0; i <= pieces; ++i) {
      const double p = from + i * h;
      const double slope = (mass(p + small) - mass(p - small)) / (2.0 * small);
      const double weight = i == 0 || i == pieces ? 1.0 : (i % 2 ? 4.0 : 2.0);
      sum += weight * slope / (pump * oil.density_at_zero() - leak(p));
    }
    return sum * h / 3.0;
  }
};

Control wire(const Bench& b, const std::string& name, std::string_view signal, bool above, double threshold,
             double running) {
  const int pump = b.signal("P1.delivery").part;
  return {name, {{b.signal(signal), above, threshold}}, {{pump, 0, running, 0.0}}, {}};
}

std::vector<double> moments(const Trace& trace, std::string_view sentence) {
  std::vector<double> times;
  for (const Event& e : trace.events) {
    if (e.sentence == sentence) times.push_back(e.time);
  }
  return times;
}

TEST(controls, a_switch_stops_the_pump_at_the_high_pressure_and_starts_it_at_the_low_one_cycle_after_cycle) {
  Bench b = vessel(0.6);
  const Vessel vessel(b);
  b.step("on its own", 40.0);
  solve::RunOptions options;
  options.controls = {wire(b, "stop", "S1.made", true, 0.5, 0.0),
                      wire(b, "start", "S1.made", false, 0.5, 1.0)};
  const Trace trace = b.run({"G1.pressure", "S1.made", "P1.delivery"}, options);
  expect_closed_books(trace);

  const auto stops = moments(trace, "control \"stop\" sets P1"),
             starts = moments(trace, "control \"start\" sets P1");
  ASSERT_GE(stops.size(), 4u);
  ASSERT_GE(starts.size(), 4u);
  EXPECT_EQ(starts[0], 0.0);  // not made at time 0: the wiring acts at once
  const double filled = vessel.time(0.0, made_at, flow), fall = vessel.time(made_at, broken_at, 0.0),
               rise = vessel.time(broken_at, made_at, flow);
  EXPECT_NEAR(stops[0], filled, closed_form * filled);
  for (int cycle = 0; cycle < 3; ++cycle) {
    EXPECT_NEAR(starts[cycle + 1] - stops[cycle], fall, closed_form * fall) << cycle;
    EXPECT_NEAR(stops[cycle + 1] - starts[cycle + 1], rise, closed_form * rise) << cycle;
  }
  EXPECT_NEAR(highest(trace, "G1.pressure"), made_at, 1e-3 * si::bar);
  EXPECT_EQ(moments(trace, "S1 switches on").size(), stops.size());
}

// A condition on a pressure that has no dead band: both controls act where it passes, not at each step of the
// solver.
TEST(controls, a_control_on_a_plain_pressure_acts_once_each_time_it_is_passed) {
  Bench b = vessel(0.6);
  const Vessel vessel(b);
  b.step("on its own", 12.0);
  solve::RunOptions options;
  options.controls = {wire(b, "stop", "G1.pressure", true, made_at, 0.0),
                      wire(b, "start", "G1.pressure", false, broken_at, 1.0)};
  const Trace trace = b.run({"G1.pressure"}, options);
  const auto stops = moments(trace, "control \"stop\" sets P1"),
             starts = moments(trace, "control \"start\" sets P1");
  const double filled = vessel.time(0.0, made_at, flow), fall = vessel.time(made_at, broken_at, 0.0),
               rise = vessel.time(broken_at, made_at, flow);
  const auto cycles = static_cast<std::size_t>((12.0 - filled) / (fall + rise)) + 1;
  ASSERT_EQ(stops.size(), cycles);
  EXPECT_NEAR(stops.back(), filled + static_cast<double>(cycles - 1) * (fall + rise),
              closed_form * stops.back());
}

// Edge, not level: while the switch stays made a step may run the pump again, and the wiring does not gainsay
// it.
TEST(controls, what_a_step_commands_afterwards_stands_until_the_condition_comes_true_anew) {
  Bench b = vessel(0.0);
  b.step("fill", 12.0, {{"P1", "running", 1.0}});
  b.step("on over the switch", 6.0, {{"P1", "running", 1.0}});
  solve::RunOptions options;
  options.controls = {wire(b, "stop", "S1.made", true, 0.5, 0.0)};
  const Trace trace = b.run({"G1.pressure", "P1.delivery"}, options);
  expect_closed_books(trace);
  EXPECT_EQ(moments(trace, "control \"stop\" sets P1").size(), 1u);
  EXPECT_NEAR(at(trace, "G1.pressure", 11.9), made_at, 0.1 * si::bar);
  EXPECT_GT(last(trace, "G1.pressure"), 220 * si::bar);  // at the relief
  EXPECT_NEAR(last(trace, "P1.delivery"), flow, 1e-9 * flow);
}

// One control's command fulfils the condition of the next: both act in the same moment.
TEST(controls, a_control_that_follows_from_another_acts_in_the_same_moment) {
  Bench b = vessel(0.6);
  b.step("on its own", 10.0, {{"P1", "running", 1.0}});
  solve::RunOptions options;
  const int needle = b.signal("N1.A.flow").part;
  Control open{"open", {{b.signal("P1.delivery"), false, 0.5 * flow}}, {{needle, 0, 8.0, 0.0}}, {}};
  options.controls = {open, wire(b, "stop", "S1.made", true, 0.5, 0.0)};
  const Trace trace = b.run({"G1.pressure"}, options);
  const auto stops = moments(trace, "control \"stop\" sets P1"),
             opens = moments(trace, "control \"open\" sets N1");
  ASSERT_EQ(stops.size(), 1u);
  ASSERT_EQ(opens.size(), 1u);
  EXPECT_EQ(stops[0], opens[0]);
  EXPECT_LT(last(trace, "G1.pressure"), 1 * si::bar);
}

TEST(controls, a_run_without_controls_is_the_same_run) {
  Bench b = vessel(0.6);
  b.step("fill", 4.0, {{"P1", "running", 1.0}});
  solve::RunOptions options;
  options.controls = {wire(b, "never", "G1.pressure", true, 900 * si::bar, 0.0)};
  const Trace bare = b.run({"G1.pressure"}), wired = b.run({"G1.pressure"}, options);
  EXPECT_EQ(bare.time, wired.time);
  EXPECT_EQ(bare.values, wired.values);
}

TEST(pressure_switch, releases_a_step_as_it_is_made_and_the_next_only_at_its_reset) {
  Bench b = vessel(0.6);
  b.step("fill", 30.0, {{"P1", "running", 1.0}});
  b.steps.back().until = {{b.signal("S1.made"), true, 0.5}};
  b.step("leak", 30.0, {{"P1", "running", 0.0}});
  b.steps.back().until = {{b.signal("S1.made"), false, 0.5}};
  const Vessel vessel(b);
  const Trace trace = b.run({"G1.pressure", "S1.made"});
  expect_closed_books(trace);
  ASSERT_EQ(trace.steps.size(), 2u);
  const double filled = vessel.time(0.0, made_at, flow), fall = vessel.time(made_at, broken_at, 0.0);
  EXPECT_NEAR(trace.steps[0].end, filled, closed_form * filled);
  EXPECT_NEAR(trace.steps[1].end - trace.steps[1].begin, fall, closed_form * fall);
  EXPECT_TRUE(trace.steps[1].finished);
  EXPECT_NEAR(at(trace, "G1.pressure", trace.steps[0].end), made_at, 1e-3 * si::bar);
  EXPECT_NEAR(last(trace, "G1.pressure"), broken_at, 1e-3 * si::bar);
}

}  // namespace
}  // namespace poise::workshop
