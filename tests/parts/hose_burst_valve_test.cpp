// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>

#include <algorithm>

#include "support/one_part.hpp"
#include "support/trade.hpp"

namespace poise::workshop {
namespace {

/// A wagon end of 2 t on a cylinder (20 cm2 bore area, 98 bar) is lifted, let down through a needle, and then
/// its hose bursts: a wide way to the pan under it opens.
Bench lift(double trip_flow) {
  Bench b;
  add_power_unit(b, 2 * si::litre_per_minute,
                 {.cracking = 180 * si::bar, .rated_flow = 8 * si::litre_per_minute});
  b.part("V2", "check", {{"rated_flow", 8 * si::litre_per_minute}});
  b.part("N1", "needle", {{"bore", 3 * si::mm}, {"turns", 0.0}, {"turning_time", 0.2}});
  b.part("H1", "hose", {{"bore", 10 * si::mm}, {"length", 3.0}});
  b.part("X1", "shut_off",
         {{"rated_flow", 100 * si::litre_per_minute}, {"position", 0.0}, {"turning_time", 0.01}});
  b.part(
      "B1", "hose_burst_valve",
      {{"trip_flow", trip_flow}, {"rated_flow", 10 * si::litre_per_minute}, {"pressure_drop", 5 * si::bar}});
  b.part("C1", "double_acting_cylinder",
         {{"bore", 50.463 * si::mm}, {"rod", 40 * si::mm}, {"stroke", 0.3}, {"start_position", 0.0}});
  b.part("M1", "mass", {{"mass", 2000.0}});
  b.join({"V1.P", "V2.A"});
  b.join({"V2.B", "H1.A", "N1.A"});
  b.join({"H1.B", "B1.A", "X1.A"});
  b.join({"B1.B", "C1.A"});
  b.join({"N1.B", "X1.B", "C1.B", "T1.T"});
  b.join({"C1.rod", "M1.rod"});
  b.step("lift", 8.0, {{"P1", "running", 1.0}});
  b.step("stand", 1.0, {{"P1", "running", 0.0}});
  b.step("lower", 2.0, {{"N1", "turns", 1.0}});
  b.step("hold", 1.0, {{"N1", "turns", 0.0}});
  b.step("burst", 3.0, {{"X1", "position", 1.0}});
  return b;
}

const double burst = 12.0;

int count(const Trace& t, std::string_view sentence) {
  return static_cast<int>(
      std::ranges::count_if(t.events, [&](const auto& e) { return e.sentence == sentence; }));
}

TEST(hose_burst_valve, lets_the_load_down_and_holds_it_when_the_hose_bursts) {
  const Trace t =
      lift(8 * si::litre_per_minute)
          .run({"C1.position", "B1.A.pressure", "B1.B.pressure", "B1.B.flow", "B1.tripped", "B1.trip_drop"});
  expect_closed_books(t);
  ASSERT_GT(at(t, "C1.position", 8.9), 0.1);
  EXPECT_LT(at(t, "C1.position", 11.5), at(t, "C1.position", 8.9) - 5 * si::mm);  // lowering did not trip it
  ASSERT_EQ(count(t, "B1 trips"), 1);
  const auto trip = std::ranges::find_if(t.events, [](const auto& e) { return e.sentence == "B1 trips"; });
  EXPECT_GT(trip->time, burst);
  EXPECT_LT(trip->time, burst + 0.02);
  // a·Q² + b·Q at the trip flow, a and b through 5 bar at 10 L/min
  const double r = 0.8, expected = 5 * si::bar * (r * r + 0.1 * r) / 1.1;
  EXPECT_NEAR(last(t, "B1.trip_drop"), expected, 1.0);
  // 100 bar over a valve whose drop is 5 bar at 10 L/min: some 45 L/min for 17 ms (its time constant) sinks
  // 20 cm2 by about 6 mm; the oil's own spring adds to that.
  EXPECT_LT(at(t, "C1.position", burst) - last(t, "C1.position"), 15 * si::mm);
  EXPECT_NEAR(at(t, "C1.position", burst + 1.0), last(t, "C1.position"), 0.1 * si::mm);
  EXPECT_EQ(last(t, "B1.tripped"), 1.0);
}

TEST(hose_burst_valve, with_too_high_a_trip_flow_lets_the_load_fall) {
  const Trace t = lift(200 * si::litre_per_minute).run({"C1.position"});
  expect_closed_books(t);
  EXPECT_EQ(count(t, "B1 trips"), 0);
  EXPECT_LT(last(t, "C1.position"), 1 * si::mm);
}

TEST(hose_burst_valve, opens_again_when_the_line_is_pressed_and_lifts) {
  Bench b = lift(8 * si::litre_per_minute);
  b.step("mended", 0.5, {{"X1", "position", 0.0}});
  b.step("lift again", 3.0, {{"P1", "running", 1.0}});
  const Trace t = b.run({"C1.position", "B1.tripped", "B1.opening"});
  expect_closed_books(t);
  EXPECT_EQ(count(t, "B1 opens again"), 1);
  EXPECT_EQ(at(t, "B1.tripped", 15.4), 1.0);
  EXPECT_EQ(last(t, "B1.tripped"), 0.0);
  EXPECT_NEAR(last(t, "B1.opening"), 1.0, 1e-3);
  EXPECT_GT(last(t, "C1.position"), at(t, "C1.position", 15.4) + 10 * si::mm);
}

// Trade: hot or cold oil shifts the flow at which it trips (lift-table note on velocity fuses).
TEST(hose_burst_valve, in_colder_oil_trips_at_less_flow) {
  const auto flow_at_trip = [](double temperature) {
    OilData data;
    data.temperature = temperature;
    OnePart valve("hose_burst_valve",
                  {{"trip_flow", 8 * si::litre_per_minute},
                   {"rated_flow", 10 * si::litre_per_minute},
                   {"pressure_drop", 5 * si::bar},
                   {"measured_viscosity", 46 * si::mm2_per_s}},
                  data);
    valve.press(1, valve.report(0));
    return valve.flow(1);
  };
  EXPECT_NEAR(flow_at_trip(si::zero_celsius + 40), 8 * si::litre_per_minute, 0.01 * si::litre_per_minute);
  EXPECT_LT(flow_at_trip(si::zero_celsius), 6 * si::litre_per_minute);
}

}  // namespace
}  // namespace poise::workshop
