// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A wagon body over several jacks: who carries what, what tips, what keeps level. Expected shares come from
// statics written here. Invented data.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "parts/laws.hpp"
#include "support/lift.hpp"

namespace poise {
namespace {

using namespace workshop;
using namespace workshop::lift;

constexpr double closed_form = 1e-3;

#define EXPECT_CLOSE(found, expected) EXPECT_NEAR(found, expected, closed_form* std::abs(expected))

/// Shares of the weight on springs of stiffness k_i under a rigid plate, Σ k_i·w_i = weight and no moment
/// about the centre, w = a + b·dx + c·dy: the three equations solved by Cramer's rule.
std::vector<double> shares_by_stiffness(const Points& points, Centre centre, const std::vector<double>& k) {
  double s = 0, sx = 0, sy = 0, sxx = 0, sxy = 0, syy = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const double x = points[i].x - centre.x, y = points[i].y - centre.y;
    s += k[i], sx += k[i] * x, sy += k[i] * y;
    sxx += k[i] * x * x, sxy += k[i] * x * y, syy += k[i] * y * y;
  }
  const double whole = s * (sxx * syy - sxy * sxy) - sx * (sx * syy - sxy * sy) + sy * (sx * sxy - sxx * sy);
  const double a = weight * (sxx * syy - sxy * sxy) / whole, bx = -weight * (sx * syy - sxy * sy) / whole,
               by = weight * (sx * sxy - sxx * sy) / whole;
  std::vector<double> shares;
  for (std::size_t i = 0; i < points.size(); ++i) {
    shares.push_back(k[i] * (a + bx * (points[i].x - centre.x) + by * (points[i].y - centre.y)));
  }
  return shares;
}

// Statics: three points carry by the areas of the triangles that the centre of gravity makes with the other
// two (barycentric coordinates).
TEST(rigid_load, three_points_carry_what_the_lever_rule_says) {
  Bench b;
  const Points points{{-2.0, -1.0}, {3.0, -1.0}, {0.5, 1.5}};
  const Centre g{0.2, -0.3};
  add_load(b, points, g);
  add_equal_flows(b, 3);
  b.step("lift", 8.0, {{"P1", "running", 1.0}, {"P2", "running", 1.0}, {"P3", "running", 1.0}});
  b.step("stand", 4.0, {{"P1", "running", 0.0}, {"P2", "running", 0.0}, {"P3", "running", 0.0}});
  const Trace t = b.run({"L1.force_1", "L1.force_2", "L1.force_3", "L1.on_blocks", "L1.force_4"});
  expect_closed_books(t);
  const auto area = [](CurvePoint a, CurvePoint d, CurvePoint c) {
    return std::abs((d.x - a.x) * (c.y - a.y) - (c.x - a.x) * (d.y - a.y));
  };
  const CurvePoint centre{g.x, g.y};
  const double all = area(points[0], points[1], points[2]);
  EXPECT_CLOSE(at(t, "L1.on_blocks", 0.0), weight);
  EXPECT_CLOSE(last(t, "L1.force_1"), weight * area(centre, points[1], points[2]) / all);
  EXPECT_CLOSE(last(t, "L1.force_2"), weight * area(points[0], centre, points[2]) / all);
  EXPECT_CLOSE(last(t, "L1.force_3"), weight * area(points[0], points[1], centre) / all);
  EXPECT_EQ(last(t, "L1.on_blocks"), 0.0);
  EXPECT_EQ(last(t, "L1.force_4"), 0.0);
}

// Statics: four equal springs under a plate whose centre of gravity is off the middle, on rods that stand on
// their stops: weight/4·(1 ± 2·ex/a ± 2·ey/b) with the sides a, b. Rod stop and contact are springs in
// series.
TEST(rigid_load, four_points_share_by_stiffness_when_the_centre_is_off_the_middle) {
  Bench b;
  const Centre g{0.6, 0.15};
  add_load(b, rectangle, g);
  b.set("L1", "stands_on", 1.0);
  add_vents(b, 4);
  b.step("stand", 2.0);
  const Trace t = b.run({"L1.force_1", "L1.force_2", "L1.force_3", "L1.force_4"});
  expect_closed_books(t);
  const double along = 2 * g.x / 6.0, across = 2 * g.y / 2.0;
  EXPECT_CLOSE(last(t, "L1.force_1"), weight / 4 * (1 - along - across));
  EXPECT_CLOSE(last(t, "L1.force_2"), weight / 4 * (1 + along - across));
  EXPECT_CLOSE(last(t, "L1.force_3"), weight / 4 * (1 + along + across));
  EXPECT_CLOSE(last(t, "L1.force_4"), weight / 4 * (1 - along + across));
}

// Statics: unequal springs by the full stiffness solution. The rods stand on stops of 2e8 N/m (default), in
// series with the contact.
TEST(rigid_load, a_softer_point_leaves_its_share_to_the_others) {
  Bench b;
  const Centre g{0.3, 0.1};
  add_load(b, rectangle, g);
  b.set("L1", "stands_on", 1.0);
  b.points("L1", "stiffness_at", {{2, 2e7}});
  add_vents(b, 4);
  b.step("stand", 2.0);
  const Trace t = b.run({"L1.force_1", "L1.force_2", "L1.force_3", "L1.force_4"});
  expect_closed_books(t);
  const double seat = 2e8;
  const auto series = [&](double k) { return k * seat / (k + seat); };
  const auto expected =
      shares_by_stiffness(rectangle, g, {series(1e8), series(2e7), series(1e8), series(1e8)});
  for (std::size_t k = 0; k < 4; ++k) EXPECT_CLOSE(last(t, numbered("L1.force_", k)), expected[k]);
}

// Common practice (two corners carry): on four stiff points one shim more than the springs give lifts the
// neighbours off and puts half of the weight on each of two opposite points.
TEST(rigid_load, an_uneven_floor_puts_half_the_weight_on_two_opposite_points) {
  Bench b;
  add_load(b, rectangle, {0.0, 0.0});
  b.set("L1", "stands_on", 1.0);
  b.set("L1", "contact_stiffness", 1e9);
  b.points("L1", "gap_at", {{2, 2 * si::mm}, {4, 2 * si::mm}});
  add_vents(b, 4);
  b.step("stand", 2.0);
  const Trace t = b.run({"L1.force_1", "L1.force_2", "L1.force_3", "L1.force_4"});
  expect_closed_books(t);
  EXPECT_CLOSE(last(t, "L1.force_1"), weight / 2);
  EXPECT_CLOSE(last(t, "L1.force_3"), weight / 2);
  EXPECT_NEAR(last(t, "L1.force_2") + last(t, "L1.force_4"), 0.0, 1e-3 * weight);
}

// Statics of a beam on two points: lever rule, and it stays upright.
TEST(rigid_load, two_points_carry_a_beam_by_the_lever_rule) {
  Bench b;
  const double x = 0.7;
  add_load(b, {{-2.0, 0.0}, {2.0, 0.0}}, {x, 0.0});
  add_equal_flows(b, 2);
  b.step("lift", 6.0, {{"P1", "running", 1.0}, {"P2", "running", 1.0}});
  b.step("stand", 4.0, {{"P1", "running", 0.0}, {"P2", "running", 0.0}});
  const Trace t = b.run({"L1.force_1", "L1.force_2", "L1.roll.position"});
  expect_closed_books(t);
  EXPECT_CLOSE(last(t, "L1.force_1"), weight * (2.0 - x) / 4.0);
  EXPECT_CLOSE(last(t, "L1.force_2"), weight * (2.0 + x) / 4.0);
  EXPECT_EQ(last(t, "L1.roll.position"), 0.0);
}

// Statics: however many points share it, they carry the weight and no more.
TEST(rigid_load, eight_points_lift_and_the_shares_add_up_to_the_weight) {
  Bench b;
  const Points points{{-6, -1}, {-2, -1}, {2, -1}, {6, -1}, {6, 1}, {2, 1}, {-2, 1}, {-6, 1}};
  add_load(b, points, {0.4, 0.05});
  add_equal_flows(b, 8);
  b.step("lift", 10.0,
         {{"P1", "running", 1.0},
          {"P2", "running", 1.0},
          {"P3", "running", 1.0},
          {"P4", "running", 1.0},
          {"P5", "running", 1.0},
          {"P6", "running", 1.0},
          {"P7", "running", 1.0},
          {"P8", "running", 1.0}});
  b.step("stand", 4.0,
         {{"P1", "running", 0.0},
          {"P2", "running", 0.0},
          {"P3", "running", 0.0},
          {"P4", "running", 0.0},
          {"P5", "running", 0.0},
          {"P6", "running", 0.0},
          {"P7", "running", 0.0},
          {"P8", "running", 0.0}});
  const Trace t = b.run({"L1.force_1", "L1.force_2", "L1.force_3", "L1.force_4", "L1.force_5", "L1.force_6",
                         "L1.force_7", "L1.force_8", "L1.tilt", "L1.point_8.position"});
  expect_closed_books(t);
  double sum = 0.0;
  for (std::size_t k = 0; k < 8; ++k) sum += last(t, numbered("L1.force_", k));
  EXPECT_CLOSE(sum, weight);
  EXPECT_GT(last(t, "L1.point_8.position"), 30 * si::mm);
  EXPECT_LT(highest(t, "L1.tilt"), 1.0 / 1000);
}

// m, m·L²/12 about each axis (an even bar), or the radii of gyration that the job states.
TEST(rigid_load, is_as_hard_to_turn_as_an_even_plate_or_as_stated) {
  const auto inertia_of = [](Bench::Numbers more, int port) {
    Bench b;
    b.part("L1", "rigid_load", {{"mass", mass}, {"centre_x", 0.0}, {"centre_y", 0.0}});
    for (const auto& [name, value] : more) b.set("L1", name, value);
    b.points("L1", "points", rectangle);
    const Laws laws = b.plan.parts[0].kind->make(b.plan.parts[0].values, Oil(OilData{}));
    return laws.body(laws.numbers.get(), port).mass;
  };
  EXPECT_CLOSE(inertia_of({}, 0), mass);
  EXPECT_CLOSE(inertia_of({}, 1), mass * 6.0 * 6.0 / 12);
  EXPECT_CLOSE(inertia_of({}, 2), mass * 2.0 * 2.0 / 12);
  EXPECT_CLOSE(inertia_of({{"pitch_radius", 3.5}, {"roll_radius", 1.2}}, 1), mass * 3.5 * 3.5);
  EXPECT_CLOSE(inertia_of({{"pitch_radius", 3.5}, {"roll_radius", 1.2}}, 2), mass * 1.2 * 1.2);
}

TEST(rigid_load, says_what_is_wrong_with_its_points) {
  const Kind& kind = *find_kind("rigid_load");
  const auto complaint = [&](const Points& points, Centre centre) {
    Bench one;
    one.part("L1", "rigid_load", {{"mass", mass}, {"centre_x", centre.x}, {"centre_y", centre.y}});
    one.points("L1", "points", points);
    const auto found = kind.check(one.plan.parts[0].values);
    return found.empty() ? std::string() : found.front().sentence;
  };
  EXPECT_EQ(complaint(rectangle, {0.0, 0.0}), "");
  EXPECT_NE(complaint({{0, 0}, {1, 1}, {2, 2}}, {1.0, 0.5}).find("in one line"), std::string::npos);
  EXPECT_EQ(complaint({{0, 0}, {1, 1}, {2, 2}}, {0.5, 0.5}), "");
  EXPECT_NE(complaint({{1, 1}, {1, 1}}, {1.0, 1.0}).find("one place"), std::string::npos);
  EXPECT_NE(complaint(Points(9, {0.0, 0.0}), {0.0, 0.0}).find("at most 8"), std::string::npos);
}

}  // namespace
}  // namespace poise
