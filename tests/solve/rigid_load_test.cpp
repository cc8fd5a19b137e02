// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A wagon body over several jacks: who carries what, what tips, what keeps level. Expected shares come from
// statics written here. Invented data.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "parts/laws.hpp"
#include "support/trade.hpp"

namespace poise {
namespace {

using namespace workshop;

constexpr double closed_form = 1e-3;

#define EXPECT_CLOSE(found, expected) EXPECT_NEAR(found, expected, closed_form* std::abs(expected))

struct Centre {
  double x, y;
};

constexpr double mass = 20e3, bore = 80 * si::mm, pump_flow = 4 * si::litre_per_minute;
constexpr double weight = mass * si::gravity;
const Points rectangle{{-3.0, -1.0}, {3.0, -1.0}, {3.0, 1.0}, {-3.0, 1.0}};

std::string numbered(const char* name, std::size_t k) { return name + std::to_string(k + 1); }

/// L1 over jacks C1, C2, …, each without dry friction, damped so that the load comes to rest on its oil.
void add_load(Bench& b, const Points& points, Centre centre, double start = 0.0) {
  b.part("L1", "rigid_load",
         {{"mass", mass}, {"centre_x", centre.x}, {"centre_y", centre.y}, {"guide_damping", 1e5}});
  b.points("L1", "points", points);
  for (std::size_t k = 0; k < points.size(); ++k) {
    const std::string jack = numbered("C", k);
    b.part(jack, "single_acting_cylinder",
           {{"bore", bore},
            {"stroke", 0.3},
            {"start_position", start},
            {"friction", 0.0},
            {"seal_friction", 0.0},
            {"damping", 2e4}});
    b.join({jack + ".rod", numbered("L1.point_", k)});
  }
}

/// Jacks open to the reservoir: the rods stand on their stops without oil under them.
void add_vents(Bench& b, std::size_t jacks) {
  b.part("T1", "reservoir", {{"usable_oil", 50 * si::litre}});
  for (std::size_t k = 0; k < jacks; ++k) b.join({"T1.T", numbered("C", k) + ".A"});
}

/// One pump behind a check, a hose from it to every jack.
void add_open_line(Bench& b, std::size_t jacks) {
  add_power_unit(b, pump_flow, {.cracking = 300 * si::bar, .rated_flow = 20 * si::litre_per_minute},
                 50 * si::litre);
  b.part("V2", "check", {{"rated_flow", 20 * si::litre_per_minute}});
  b.join({"P1.P", "V2.A"});
  for (std::size_t k = 0; k < jacks; ++k) {
    b.part(numbered("H", k), "hose", {{"bore", 10 * si::mm}, {"length", 3.0}});
    b.join({"V2.B", numbered("H", k) + ".A"});
    b.join({numbered("H", k) + ".B", numbered("C", k) + ".A"});
  }
}

/// A pump stage of its own for every jack, all alike: what keeps a lift level.
void add_equal_flows(Bench& b, std::size_t jacks) {
  b.part("T1", "reservoir", {{"usable_oil", 50 * si::litre}});
  for (std::size_t k = 0; k < jacks; ++k) {
    const std::string pump = numbered("P", k), relief = numbered("V", k);
    b.part(pump, "pump",
           {{"flow", pump_flow / 4}, {"volumetric_efficiency", 1.0}, {"rated_pressure", 400 * si::bar}});
    b.part(relief, "relief", {{"setting", 400 * si::bar}, {"rated_flow", 10 * si::litre_per_minute}});
    b.join({pump + ".P", relief + ".P", numbered("C", k) + ".A"});
    b.join({"T1.T", pump + ".S", relief + ".T"});
  }
}

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
  EXPECT_FALSE(t.halt);
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
