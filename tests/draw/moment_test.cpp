// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/moment.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "draw/hand_drawn.hpp"

namespace poise::draw {
namespace {

using drawing::area;
using drawing::lift;
using drawing::lift_drawn;
using drawing::pump;
using drawing::ram;
using testing::DoubleNear;
using workshop::Bench;

Trace run(const Bench& b, double time) {
  solve::RunOptions options;
  options.look_at = {time};
  return b.run({}, options);
}

DrawnMoment moment_at(double time) {
  const Bench b = lift();
  const Trace trace = run(b, time);
  return drawn_moment(lift_drawn(), build(b.plan), trace.moments.at(0));
}

double upwards(const WireMoment& line, double y) {
  for (const Stream& s : line.pieces) {
    if (s.piece.from.x != 20.0 || s.piece.to.x != 20.0) continue;
    if (std::min(s.piece.from.y, s.piece.to.y) < y && y < std::max(s.piece.from.y, s.piece.to.y))
      return s.piece.to.y > s.piece.from.y ? s.flow : -s.flow;
  }
  ADD_FAILURE() << "no piece at " << y;
  return 0.0;
}

TEST(DrawnMoment, oil_runs_from_the_pump_to_the_ram_and_past_the_shut_relief) {
  const DrawnMoment now = moment_at(1.5);
  const Bench b = lift();
  const Trace trace = run(b, 1.5);
  const double speed = trace.moments[0].parts[ram].speed[0];
  const double fed = speed * area;  // moves at a steady speed: what swells is less than a thousandth
  ASSERT_GT(fed, 3 * si::litre_per_minute);
  const WireMoment& line = now.wires[0];
  ASSERT_EQ(line.pieces.size(), 4U);  // the upright one is cut at the branch
  EXPECT_NEAR(upwards(line, 30), fed, 1e-3 * fed);
  EXPECT_NEAR(upwards(line, 40), fed, 1e-3 * fed);
  for (const Stream& s : line.pieces) {
    if (s.piece.from.x == 20.0 && s.piece.to.x == 20.0) continue;
    EXPECT_NEAR(s.flow, 0.0, 1e-3 * fed);
  }
  EXPECT_DOUBLE_EQ(now.greatest_flow, std::max(upwards(line, 30), upwards(now.wires[1], 10)));
}

TEST(DrawnMoment, the_reservoir_gives_what_the_pump_takes) {
  const DrawnMoment now = moment_at(1.5);
  const double into_pump = now.parts[pump].flow[0];
  ASSERT_GT(into_pump, 3 * si::litre_per_minute);
  EXPECT_NEAR(upwards(now.wires[1], 10), into_pump, 1e-9 * into_pump);
}

TEST(DrawnMoment, over_the_relief_oil_runs_to_its_mark_of_the_reservoir) {
  // The stroke of 0.3 m is over after 0.3·A/(4 L/min) = 5.7 s; then all oil goes over the relief.
  Bench b = lift();
  b.step("dead-head", 8.0);
  const Trace trace = run(b, 9.5);
  const DrawnMoment now = drawn_moment(lift_drawn(), build(b.plan), trace.moments.at(0));
  const double delivery = -now.parts[pump].flow[1];
  ASSERT_GT(delivery, 2 * si::litre_per_minute);
  for (const Stream& s : now.wires[0].pieces) {
    if (s.piece.from.x == 20.0 && s.piece.to.x == 20.0) continue;
    EXPECT_NEAR(s.piece.from.y < s.piece.to.y ? -s.flow : s.flow, delivery, 1e-3 * delivery);
  }
  // From the relief to the mark; without pressure it is some more.
  ASSERT_EQ(now.tanks[0].pieces.size(), 1U);
  EXPECT_DOUBLE_EQ(now.tanks[0].pieces[0].flow, -now.parts[drawing::relief].flow[1]);
  EXPECT_GT(now.tanks[0].pieces[0].flow, delivery);
  EXPECT_NEAR(now.tanks[0].pressure, 0.0, 1.0);
  EXPECT_NEAR(upwards(now.wires[0], 40), 0.0, 1e-3 * delivery);
  EXPECT_GT(now.wires[0].pressure, 180 * si::bar);
  EXPECT_DOUBLE_EQ(highest_pressure(trace.moments[0]), now.wires[0].pressure);
}

TEST(DrawnMoment, parts_stand_as_they_were_and_as_they_were_told) {
  const DrawnMoment before = moment_at(1e-3), later = moment_at(1.5);
  EXPECT_LT(before.parts[ram].position[0], 0.001);
  EXPECT_GT(later.parts[ram].position[0], 0.02);
  // The pump runs up within 0.3 s: before half of that it is drawn as off.
  EXPECT_THAT(before.parts[pump].input, testing::ElementsAre(0.0));
  EXPECT_THAT(later.parts[pump].input, testing::ElementsAre(1.0));
  EXPECT_EQ(later.parts[ram].pose().position.size(), 1U);
  EXPECT_EQ(later.step, "lift");
  EXPECT_THAT(later.time, DoubleNear(1.5, 1e-9));
}

TEST(DrawnMoment, a_contact_that_is_made_is_drawn_as_made) {
  Bench b = lift();
  b.part("S1", "pressure_switch", {{"setting", 20 * si::bar}, {"reset", 10 * si::bar}});
  b.join({"P1.P", "S1.M"});
  const auto made = [&](double time) {
    const Trace trace = run(b, time);
    const DrawnMoment moment = drawn_moment(lift_drawn(), build(b.plan), trace.moments.at(0));
    const Pose pose = moment.parts[5].pose();
    return std::vector<bool>(pose.mode.begin(), pose.mode.end());
  };
  // The weight of 500 kg wants 39 bar, which the pump has soon after it runs.
  EXPECT_THAT(made(1e-3), testing::ElementsAre(false));
  EXPECT_THAT(made(1.5), testing::ElementsAre(true));
}

TEST(DrawnMoment, a_rod_has_no_oil) { EXPECT_TRUE(moment_at(1.0).wires[2].pieces.empty()); }

}  // namespace
}  // namespace poise::draw
