// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A wagon body that is lifted, let down, tipped and stood on lock nuts. Invented data.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/lift.hpp"

namespace poise {
namespace {

using namespace workshop;
using namespace workshop::lift;

constexpr double closed_form = 1e-3;

#define EXPECT_CLOSE(found, expected) EXPECT_NEAR(found, expected, closed_form* std::abs(expected))

// Common practice (tilt limit, equal flows): a pump stage per point lifts by volume, whatever each carries.
TEST(rigid_load, equal_flows_keep_the_lift_level) {
  Bench b;
  const Centre g{0.8, 0.2};
  add_load(b, rectangle, g);
  add_equal_flows(b, 4);
  b.step("lift", 20.0,
         {{"P1", "running", 1.0}, {"P2", "running", 1.0}, {"P3", "running", 1.0}, {"P4", "running", 1.0}});
  const Trace t = b.run({"L1.tilt", "L1.heave.position", "L1.corner_difference", "L1.heave.speed"});
  expect_closed_books(t);
  // Only the oil's and the contacts' give differs from point to point: some tenths of a millimetre.
  EXPECT_GT(last(t, "L1.heave.position"), 50 * si::mm);
  EXPECT_LT(highest(t, "L1.tilt"), 1.0 / 1000);
  EXPECT_LT(highest(t, "L1.corner_difference"), 2 * si::mm);
  EXPECT_TRUE(
      std::ranges::any_of(t.events, [](const Event& e) { return e.sentence == "L1 leaves its blocks"; }));
}

// Common practice (lightest first): on one open line the point with the least weight over area rises first,
// and the load tilts towards the heavy end.
TEST(rigid_load, on_one_open_line_the_light_end_goes_first) {
  Bench b;
  const Centre g{1.0, 0.0};  // points 2 and 3, at x = 3, carry two thirds
  add_load(b, rectangle, g);
  add_open_line(b, 4);
  b.step("lift", 12.0, {{"P1", "running", 1.0}});
  const Trace t = b.run({"C1.position", "C2.position", "C3.position", "C4.position", "L1.pitch.position",
                         "C1.A.pressure", "L1.on_blocks"});
  expect_closed_books(t);
  EXPECT_GT(last(t, "C1.position"), 20 * si::mm);
  EXPECT_GT(last(t, "C4.position"), 20 * si::mm);
  EXPECT_LT(last(t, "C2.position"), 1 * si::mm);
  EXPECT_LT(last(t, "C3.position"), 1 * si::mm);
  EXPECT_LT(last(t, "L1.pitch.position"), -0.5 * last(t, "C1.position") / 6.0);
  EXPECT_TRUE(std::ranges::any_of(t.events,
                                  [](const Event& e) { return e.sentence == "L1 tilts beyond its limit"; }));
  EXPECT_TRUE(
      std::ranges::none_of(t.events, [](const Event& e) { return e.sentence == "L1 leaves its blocks"; }));
}

// Statics: with the centre of gravity outside the points nothing holds the load up.
TEST(rigid_load, tips_when_its_centre_is_outside_the_points) {
  Bench b;
  add_load(b, {{-2.0, -1.0}, {3.0, -1.0}, {0.5, 1.5}}, {0.5, -1.1});
  add_vents(b, 3);
  b.step("stand", 2.0);
  const Trace t = b.run({"L1.tilt", "L1.roll.position"});
  expect_closed_books(t);
  EXPECT_GT(last(t, "L1.tilt"), 0.2);
  EXPECT_GT(last(t, "L1.roll.position"), 0.0);  // the side towards −y goes down
}

// Statics: a centre of gravity inside the points by d at height H tips once the load leans by d/H: one end is
// raised until it goes over.
TEST(rigid_load, a_high_centre_tips_once_it_has_leant_past_the_edge) {
  Bench b;
  const double high = 3.0, inside = 0.15;
  add_load(b, {{-1.0, -1.0}, {1.0, -1.0}, {1.0, 1.0}, {-1.0, 1.0}}, {1.0 - inside, 0.0});
  b.set("L1", "centre_height", high);
  b.set("L1", "tilt_limit", inside / high);
  add_power_unit(b, pump_flow, {.cracking = 300 * si::bar, .rated_flow = 20 * si::litre_per_minute});
  for (const char* plug : {"C2.A", "C3.A"}) b.plug(plug);
  b.join({"P1.P", "C1.A", "C4.A"});
  b.step("raise one end", 25.0, {{"P1", "running", 1.0}});
  const Trace t = b.run({"L1.tilt", "L1.pitch.position", "L1.force_1", "L1.force_4", "C1.position"});
  expect_closed_books(t);
  const double gone = first_above(t, "L1.tilt", 0.2);
  ASSERT_FALSE(std::isnan(gone));
  // The raised jacks lose the load as it leans past the edge, at first slowly.
  const double let_go = [&] {
    const auto& force = t.values[t.column("L1.force_1")];
    for (std::size_t i = 1; i < t.time.size(); ++i) {
      if (force[i] == 0.0 && force[i - 1] > 0.0) return t.time[i];
    }
    return std::nan("");
  }();
  ASSERT_FALSE(std::isnan(let_go));
  EXPECT_NEAR(at(t, "L1.tilt", let_go), inside / high, 0.03 * inside / high);
  EXPECT_TRUE(
      std::ranges::any_of(t.events, [](const Event& e) { return e.sentence == "L1 hangs free at a point"; }));
}

// Common practice (heaviest falls first): let down over one valve the jacks with the highest pressure come
// down first, and their oil even raises the others.
TEST(rigid_load, let_down_over_one_valve_the_heavy_end_comes_down_first) {
  Bench b;
  const double start = 60 * si::mm;
  add_load(b, rectangle, {1.0, 0.0}, start);
  b.set("L1", "stands_on", 1.0);
  b.set("L1", "start_height", start);
  b.part("T1", "reservoir", {{"usable_oil", 50 * si::litre}});
  b.part("N1", "needle", {{"bore", 1.5 * si::mm}, {"turns", 2.0}});
  b.join({"N1.B", "T1.T"});
  for (std::size_t k = 0; k < 4; ++k) {
    b.part(numbered("S", k), "shut_off", {{"position", 0.0}, {"rated_flow", 4 * si::litre_per_minute}});
    b.join({numbered("C", k) + ".A", numbered("S", k) + ".A"});
    b.join({"N1.A", numbered("S", k) + ".B"});
  }
  b.step("stand", 1.0);
  b.step("let down", 120.0,
         {{"S1", "position", 1.0, 0.5},
          {"S2", "position", 1.0, 0.5},
          {"S3", "position", 1.0, 0.5},
          {"S4", "position", 1.0, 0.5}});
  const Trace t = b.run({"C1.position", "C2.position", "C3.position", "C4.position"});
  expect_closed_books(t);
  const double stood = at(t, "C1.position", 1.0);
  const auto& heavy = t.values[t.column("C2.position")];
  double down = std::nan("");
  for (std::size_t i = 0; i < heavy.size() && std::isnan(down); ++i) {
    if (heavy[i] < 1 * si::mm) down = t.time[i];
  }
  ASSERT_FALSE(std::isnan(down));
  EXPECT_GT(at(t, "C1.position", down), stood + 5 * si::mm);
  EXPECT_NEAR(at(t, "C3.position", down), at(t, "C2.position", down), 1 * si::mm);
  EXPECT_LT(last(t, "C1.position"), 1 * si::mm);
  EXPECT_LT(last(t, "C4.position"), 1 * si::mm);
}

// A lift stood on its lock nuts: the oil goes, the shares stay where they were but for what the nuts give.
TEST(rigid_load, stands_on_lock_nuts_when_the_oil_is_gone) {
  Bench b;
  const Centre g{0.6, 0.1};
  add_load(b, rectangle, g);
  add_equal_flows(b, 4);
  for (std::size_t k = 0; k < 4; ++k) {
    b.part(numbered("N", k), "lock_nut", {{"turning_time", 1.0}});
    b.part(numbered("S", k), "shut_off", {{"position", 0.0}, {"rated_flow", 1 * si::litre_per_minute}});
    b.join({numbered("C", k) + ".rod", numbered("N", k) + ".rod"});
    b.join({numbered("C", k) + ".A", numbered("S", k) + ".A"});
    b.join({"T1.T", numbered("S", k) + ".B"});
  }
  b.step("lift", 8.0,
         {{"P1", "running", 1.0}, {"P2", "running", 1.0}, {"P3", "running", 1.0}, {"P4", "running", 1.0}});
  b.step("run the nuts down", 4.0,
         {{"P1", "running", 0.0},
          {"P2", "running", 0.0},
          {"P3", "running", 0.0},
          {"P4", "running", 0.0},
          {"N1", "nut", 1.0, 1.0},
          {"N2", "nut", 1.0, 1.0},
          {"N3", "nut", 1.0, 1.0},
          {"N4", "nut", 1.0, 1.0}});
  b.step("let the oil off", 20.0,
         {{"S1", "position", 1.0, 1.0},
          {"S2", "position", 1.0, 1.0},
          {"S3", "position", 1.0, 1.0},
          {"S4", "position", 1.0, 1.0}});
  const Trace t = b.run({"L1.force_1", "L1.force_2", "L1.force_3", "L1.force_4", "N1.force", "N2.force",
                         "N3.force", "N4.force", "C1.A.pressure", "L1.heave.position", "L1.on_blocks"});
  expect_closed_books(t);
  double sum = 0.0;
  for (std::size_t k = 0; k < 4; ++k) {
    EXPECT_CLOSE(last(t, numbered("N", k) + ".force"), last(t, numbered("L1.force_", k)));
    sum += last(t, numbered("L1.force_", k));
  }
  EXPECT_CLOSE(sum, weight);
  EXPECT_EQ(last(t, "L1.on_blocks"), 0.0);
  EXPECT_NEAR(last(t, "C1.A.pressure"), 0.0, 0.01 * si::bar);
  EXPECT_GT(last(t, "L1.heave.position"), 15 * si::mm);
  EXPECT_LT(last(t, "L1.heave.position"), at(t, "L1.heave.position", t.steps[1].end) - 0.4 * si::mm);
}

}  // namespace
}  // namespace poise
