// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>

#include <cmath>

#include "support/one_part.hpp"
#include "support/trade.hpp"

namespace poise::workshop {
namespace {

/// A bogie pusher: a cylinder runs out, its rod side empties through the cam valve, and comes back through
/// it.
Trace pusher(double reverse_check) {
  Bench b;
  add_power_unit(b, 6 * si::litre_per_minute,
                 {.cracking = 60 * si::bar, .rated_flow = 8 * si::litre_per_minute});
  b.set("P1", "running", 1.0);
  b.part("V2", "directional_4_3", {{"centre", 0.0}, {"rated_flow", 20 * si::litre_per_minute}});
  b.part("H1", "hose", {{"bore", 10 * si::mm}, {"length", 3.0}});
  b.part("C1", "double_acting_cylinder", {{"bore", 50 * si::mm}, {"rod", 28 * si::mm}, {"stroke", 0.3}});
  b.part("M1", "mass", {{"mass", 500.0}, {"slope", 0.0}});
  b.part("D1", "cam_valve",
         {{"acts_from", 0.15},
          {"acts_over", 0.1},
          {"reverse_check", reverse_check},
          {"rated_flow", 8 * si::litre_per_minute}});
  b.join({"V1.P", "H1.A"});
  b.join({"H1.B", "V2.P"});
  b.join({"V2.A", "C1.A"});
  b.join({"C1.B", "D1.A"});
  b.join({"D1.B", "V2.B"});
  b.join({"V2.T", "T1.T"});
  b.join({"C1.rod", "M1.rod", "D1.cam"});
  b.step("start", 1.0);
  b.step("out", 10.0, {{"V2", "position", 1.0}});
  b.step("back", 6.0, {{"V2", "position", 2.0}});
  Trace t = b.run({"C1.position", "C1.speed", "D1.opening", "C1.A.pressure", "D1.A.pressure", "D1.B.pressure",
                   "D1.A.flow"});
  expect_closed_books(t);
  return t;
}

TEST(cam_valve, slows_the_motion_between_its_two_positions_and_stops_it_at_the_second) {
  const Trace t = pusher(1.0);
  const double half_way = first_above(t, "C1.position", 0.2), before = first_above(t, "C1.position", 0.14);
  EXPECT_NEAR(at(t, "D1.opening", half_way), 0.5, 1e-3);
  EXPECT_NEAR(at(t, "C1.speed", before), 6 * si::litre_per_minute / circle(50 * si::mm), 1e-3);
  // At 0.24 m a tenth is open: drop = (a·Q² + b·Q)/x² of the rod side's flow, a and b through 5 bar at 8
  // L/min.
  const double late = first_above(t, "C1.position", 0.24),
               r = at(t, "D1.A.flow", late) / (8 * si::litre_per_minute);
  const double drop = at(t, "D1.A.pressure", late) - at(t, "D1.B.pressure", late);
  EXPECT_NEAR(drop, 5 * si::bar * (r * r + 0.1 * r) / 1.1 / 0.01, 0.005 * drop);
  EXPECT_LT(at(t, "C1.speed", late), 0.8 * at(t, "C1.speed", before));
  EXPECT_NEAR(at(t, "C1.position", 10.9), 0.25, 2 * si::mm);  // shut there, short of the stroke's end
  // The rod side carries the cap side's pressure over the smaller ring, less what friction takes.
  const double ratio = circle(50 * si::mm) / (circle(50 * si::mm) - circle(28 * si::mm));
  EXPECT_NEAR(at(t, "D1.A.pressure", 10.9), ratio * at(t, "C1.A.pressure", 10.9),
              0.05 * ratio * 60 * si::bar);
  EXPECT_LT(last(t, "C1.position"), 1 * si::mm);
}

TEST(cam_valve, without_a_reverse_check_lets_the_motion_back_only_slowly) {
  const auto back_at = [](const Trace& t, double time) { return at(t, "C1.position", time); };
  EXPECT_LT(back_at(pusher(1.0), 11.7), 0.22);
  EXPECT_GT(back_at(pusher(0.0), 11.7), 0.23);
}

TEST(cam_valve, that_rests_closed_opens_where_the_other_shuts) {
  for (double place : {0.10, 0.16, 0.22, 0.30}) {
    OnePart open("cam_valve", {{"acts_from", 0.15}, {"acts_over", 0.1}, {"rated_flow", 1e-4}});
    OnePart closed("cam_valve",
                   {{"acts_from", 0.15}, {"acts_over", 0.1}, {"rest", 1.0}, {"rated_flow", 1e-4}});
    open.here.body[0].position = closed.here.body[0].position = place;
    EXPECT_DOUBLE_EQ(open.report(0) + closed.report(0), 1.0);
    EXPECT_NEAR(closed.report(0), std::clamp((place - 0.15) / 0.1, 0.0, 1.0), 1e-12);
  }
}

}  // namespace
}  // namespace poise::workshop
