// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Curves of parts by their own laws, operating points on them, and the oil's way to an actuator.
#include "draw/part_curve.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "draw/chart_scene.hpp"
#include "draw/commanded.hpp"
#include "draw/ways.hpp"
#include "parts/relief.hpp"
#include "support/workshop.hpp"

namespace poise::draw {
namespace {

int part_of(const Job& job, const std::string& tag) {
  return static_cast<int>(std::ranges::find(job.plan.parts, tag, &PlannedPart::tag) - job.plan.parts.begin());
}

/// Pressure of a curve at a flow, straight between its points.
double pressure_at(const std::vector<Point>& curve, double flow) {
  for (std::size_t i = 1; i < curve.size(); ++i) {
    const Point a = curve[i - 1], b = curve[i];
    if ((a.x - flow) * (b.x - flow) > 0.0 || a.x == b.x) continue;
    return a.y + (b.y - a.y) * (flow - a.x) / (b.x - a.x);
  }
  ADD_FAILURE() << "the curve does not reach a flow of " << flow;
  return 0.0;
}

// The run's own flow and pressure at the end of a step against the curve, which knows no run.
TEST(operating_point, of_a_relief_valve_lies_on_its_curve) {
  const scene::Run run = scene::run_of("jobs/drilling-stand.toml");
  const Characteristic all = characteristic_of(run.job, run.trace, part_of(run.job, "V3"));
  EXPECT_EQ(all.shape, CurveShape::inlet);
  int checked = 0;
  for (const PartCurve& curve : all.curves) {
    for (const OperatingPoint& point : curve.at) {
      if (point.flow == 0.0) continue;
      EXPECT_NEAR(pressure_at(curve.points, point.flow), point.pressure, 0.01 * point.pressure) << point.step;
      ++checked;
    }
  }
  EXPECT_EQ(checked, 3);  // clamp, drill and release end with the pump's flow going over it
}

// Restrictions: drop over flow, both ways through a one-way flow control and past a pilot-operated check.
TEST(operating_point, of_every_restriction_of_the_lift_lies_on_its_curve) {
  const scene::Run run = scene::run_of("jobs/axle-box-lift.toml");
  int checked = 0;
  for (const char* tag : {"V1", "V3", "V5", "L1", "L4"}) {
    const Characteristic all = characteristic_of(run.job, run.trace, part_of(run.job, tag));
    EXPECT_EQ(all.shape, CurveShape::drop) << tag;
    for (const PartCurve& curve : all.curves) {
      for (const OperatingPoint& point : curve.at) {
        // 10 Pa is what the run's own noise lets a small drop tremble by.
        EXPECT_NEAR(pressure_at(curve.points, point.flow), point.pressure, 0.01 * point.pressure + 10.0)
            << tag << " " << point.step;
        ++checked;
      }
    }
  }
  EXPECT_GE(checked, 10);
}

// p = cracking + band·x with p = (a·Q² + b·Q)/x² (parts/relief.hpp solves it for p by itself).
TEST(curve, of_a_relief_valve_is_its_closed_form) {
  const scene::Run run = scene::run_of("jobs/drilling-stand.toml");
  const int part = part_of(run.job, "V3");
  const ReliefOpening closed_form(run.job.plan.parts[part].values);
  const Characteristic all = characteristic_of(run.job, run.trace, part);
  ASSERT_FALSE(all.curves.empty());
  for (const double flow : {1.0, 4.0, 8.0, 11.0}) {
    const double expected = closed_form.pressure(flow * si::litre_per_minute);
    EXPECT_NEAR(pressure_at(all.curves.front().points, flow * si::litre_per_minute), expected,
                2e-3 * expected)
        << flow;
  }
}

// The slip of a pump is straight: Q = Q0 − Q0·(1 − η)·p/p_rated, 4.2 L/min and 93 % at 250 bar.
TEST(curve, of_a_pump_falls_with_its_slip) {
  const scene::Run run = scene::run_of("jobs/drilling-stand.toml");
  const Characteristic all = characteristic_of(run.job, run.trace, part_of(run.job, "P1"));
  EXPECT_EQ(all.shape, CurveShape::delivery);
  ASSERT_EQ(all.curves.size(), 1U);
  for (const Point& p : all.curves.front().points) {
    const double at_suction = (4.2 - 4.2 * 0.07 * p.x / (250 * si::bar)) * si::litre_per_minute;
    // Volume at the outlet is smaller by what the oil gives way, below 2.5 % here.
    EXPECT_LE(p.y, at_suction * (1.0 + 1e-9));
    EXPECT_GE(p.y, 0.975 * at_suction);
  }
}

TEST(curve, shapes_follow_from_the_laws) {
  const scene::Run run = scene::run_of("jobs/drilling-stand.toml");
  const Oil oil(run.job.plan.oil);
  const auto shape = [&](const char* tag) {
    return curve_shape(run.job.plan.parts[part_of(run.job, tag)], oil);
  };
  EXPECT_EQ(shape("V2"), CurveShape::inlet);
  EXPECT_EQ(shape("V4"), CurveShape::outlet);
  EXPECT_EQ(shape("V5"), CurveShape::drop);
  EXPECT_FALSE(shape("R1").has_value());
  EXPECT_FALSE(shape("T1").has_value());
  EXPECT_FALSE(shape("G1").has_value());
}

// V1: 50 ms from centre to a at 0.5 s, to b at 7 s; half way there after 25 ms.
TEST(commands, are_where_the_run_has_them) {
  const scene::Run run = scene::run_of("jobs/drilling-stand.toml");
  const int valve = part_of(run.job, "V1");
  const auto ways = ways_of(run.job, run.trace, valve, 0);
  ASSERT_EQ(ways.size(), 3U);
  EXPECT_NEAR(ways[1].begin, 0.5, 1e-9);
  EXPECT_NEAR(ways[1].end, 0.55, 1e-9);
  EXPECT_EQ(ways[2].from, 1.0);
  EXPECT_EQ(ways[2].to, 2.0);
  EXPECT_NEAR(inputs_at(run.job, run.trace, valve, 7.025).front().s, 0.5, 1e-9);
  EXPECT_EQ(inputs_at(run.job, run.trace, valve, 7.0).front().to, 1.0);
}

TEST(ways, lead_from_the_pump_through_each_valve_to_the_clamp_and_back_to_tank) {
  const scene::Run run = scene::run_of("jobs/drilling-stand.toml");
  const Moment& clamp = run.trace.moments[1];
  ASSERT_EQ(clamp.step, "clamp");
  const auto ways = oils_ways(run.job, run.circuit, run.trace, clamp, {part_of(run.job, "K4")});
  ASSERT_EQ(ways.size(), 1U);
  std::string tags;
  for (const Passage& passage : ways.front().passages) tags += run.job.plan.parts[passage.part].tag + " ";
  EXPECT_EQ(tags, "P1 V1 L1 V2 V4 V6 K4 L2 V1 L3 ");
  EXPECT_EQ(ways.front().pressure.size(), ways.front().passages.size() + 1);
}

// What the parts on a way take adds up to what is gone at its end.
TEST(ways, losses_add_up) {
  for (const char* file :
       {"jobs/drilling-stand.toml", "jobs/axle-box-lift.toml", "tests/independent/bush_press.toml"}) {
    const scene::Run run = scene::run_of(file);
    std::vector<int> all;
    for (int p = 0; p < static_cast<int>(run.job.plan.parts.size()); ++p) {
      if (run.job.plan.parts[p].kind->oil_ports > 0 && run.job.plan.parts[p].kind->motion_ports > 0)
        all.push_back(p);
    }
    for (const Moment& moment : run.trace.moments) {
      const auto ways = oils_ways(run.job, run.circuit, run.trace, moment, all);
      EXPECT_FALSE(ways.empty()) << file << " " << moment.step;
      for (const OilsWay& way : ways) {
        double sum = 0.0;
        for (const Passage& passage : way.passages) sum += passage.drop;
        EXPECT_NEAR(way.pressure.front() - sum, way.pressure.back(), 1.0) << file << " " << moment.step;
      }
    }
  }
}

// Area of the bore times speed: 40 mm and what the run says of the rod.
TEST(flow, of_a_moving_cylinder_is_what_its_piston_makes_room_for) {
  ChartWish wish;
  wish.names = {"R1.A.flow", "R1.speed", "R1.B.flow"};
  const scene::Run run = scene::run_of("jobs/drilling-stand.toml", wish);
  const double bore = std::numbers::pi / 4 * 0.04 * 0.04, ring = bore - std::numbers::pi / 4 * 0.022 * 0.022;
  const double speed = workshop::at(run.trace, "R1.speed", 1.0);
  EXPECT_GT(speed, 0.01);
  EXPECT_NEAR(workshop::at(run.trace, "R1.A.flow", 1.0), bore * speed, 1e-3 * bore * speed);
  EXPECT_NEAR(workshop::at(run.trace, "R1.B.flow", 1.0), -ring * speed, 1e-3 * ring * speed);
}

}  // namespace
}  // namespace poise::draw
