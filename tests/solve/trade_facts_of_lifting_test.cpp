// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What everybody in the trade knows of lifting and holding, as tests: speeds, single points, held loads,
// starved cylinders, empty reservoirs. Expected numbers come from formulas written here. 0.1 % is the bar.
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

constexpr double damping = 5e4;  ///< N/(m/s): lets a load on its oil column come to rest within a second

/// A lift point without dry friction, so that the pressure under it is (weight ± damping · speed)/area.
void add_lift_point(Bench& b, const std::string& cylinder, const std::string& load, double bore, double mass,
                    double start) {
  b.part(cylinder, "single_acting_cylinder",
         {{"bore", bore},
          {"stroke", 0.4},
          {"start_position", start},
          {"friction", 0.0},
          {"seal_friction", 0.0},
          {"damping", damping}});
  b.part(load, "mass", {{"mass", mass}});
  b.join({cylinder + ".rod", load + ".rod"});
}

/// Speed of a loaded piston fed by a pump: the mass it draws, at the density under the piston.
double lifting_speed(double flow, double mass, double area) {
  const Oil oil{OilData{}};
  double speed = flow / area;
  for (int i = 0; i < 5; ++i) {
    const double pressure = (mass * si::gravity + damping * speed) / area;
    speed = flow * oil.density_at_zero() / oil.density(pressure).value / area;
  }
  return speed;
}

/// Δp = a·Q² + b·Q solved for Q.
double flow_through(double a, double b, double drop) {
  return 2 * drop / (b + std::sqrt(b * b + 4 * a * drop));
}

// Common practice: a one-way flow control lifts at the pump's speed and lowers at the needle's. Lowering: the
// needle's orifice equation with its laminar term, in series with the directional valve's path to tank.
TEST(trade_fact, one_way_flow_control_lifts_fast_and_lowers_slowly) {
  Bench b;
  const double flow = 6 * si::litre_per_minute, bore = 60 * si::mm, mass = 2500.0, hole = 0.8 * si::mm;
  const double valve_flow = 30 * si::litre_per_minute, valve_drop = 5 * si::bar;
  add_power_unit(b, flow, {.cracking = 200 * si::bar, .rated_flow = 20 * si::litre_per_minute});
  add_lift_point(b, "C1", "M1", bore, mass, 0.02);
  b.part("V2", "directional_3_2",
         {{"rated_flow", valve_flow}, {"pressure_drop", valve_drop}, {"position", 1.0}});
  b.part("V3", "check", {{"rated_flow", 20 * si::litre_per_minute}});
  b.part("N1", "one_way_flow_control",
         {{"bore", hole}, {"turns", 8.0}, {"rated_flow", 20 * si::litre_per_minute}});
  b.join({"P1.P", "V3.A"});
  b.join({"V3.B", "V2.P"});
  b.join({"V2.A", "N1.A"});
  b.join({"V2.T", "T1.T"});
  b.join({"N1.B", "C1.A"});
  b.step("lift", 5.0, {{"P1", "running", 1.0}});
  b.step("lower", 5.0, {{"V2", "position", 0.0, 0.05}, {"P1", "running", 0.0, 0.3}});
  const Trace t = b.run({"C1.speed", "C1.position"});
  expect_closed_books(t);

  const double area = circle(bore);
  const double valve_a = valve_drop / (1.1 * valve_flow * valve_flow), valve_b = 0.1 * valve_a * valve_flow;
  const Oil oil{OilData{}};
  double down = 0.0;
  for (int i = 0; i < 20; ++i) {
    const double p = (mass * si::gravity - damping * down) / area;
    const double needle_a = oil.density(p).value / (2 * std::pow(0.62 * circle(hole), 2));
    const double needle_b = needle_a * 100 * oil.viscosity() * circle(hole) / hole;
    down = flow_through(needle_a + valve_a, needle_b + valve_b, p) / area;
  }
  const double up = lifting_speed(flow, mass, area);
  const double turned = t.steps[0].end;
  EXPECT_CLOSE((at(t, "C1.position", turned) - at(t, "C1.position", turned - 2.0)) / 2.0, up);
  EXPECT_CLOSE((at(t, "C1.position", turned + 4.0) - at(t, "C1.position", turned + 2.0)) / 2.0, -down);
  EXPECT_LT(down, 0.5 * up);
}

// Common practice: with a needle at each point of a lift, shutting all but one lets that one move alone.
TEST(trade_fact, shut_needles_let_one_lift_point_move_alone) {
  Bench b;
  const double flow = 1.5 * si::litre_per_minute, bore = 70 * si::mm;
  const std::array mass{4000.0, 6000.0};
  add_power_unit(b, flow, {.cracking = 220 * si::bar, .rated_flow = 10 * si::litre_per_minute});
  b.part("V2", "check", {{"rated_flow", 20 * si::litre_per_minute}});
  b.part("H1", "hose", {{"bore", 10 * si::mm}, {"length", 5.0}});
  add_lift_point(b, "C1", "M1", bore, mass[0], 0.1);
  add_lift_point(b, "C2", "M2", bore, mass[1], 0.1);
  b.part("N1", "needle", {{"bore", 4 * si::mm}, {"turns", 8.0}});
  b.part("N2", "needle", {{"bore", 4 * si::mm}, {"turns", 0.0}});
  b.join({"P1.P", "V2.A"});
  b.join({"V2.B", "H1.A"});
  b.join({"H1.B", "N1.A", "N2.A"});
  b.join({"N1.B", "C1.A"});
  b.join({"N2.B", "C2.A"});
  b.step("first point", 6.0, {{"P1", "running", 1.0}});
  b.step("shut the first", 3.0, {{"N1", "turns", 0.0, 0.5}});
  b.step("second point", 6.0, {{"N2", "turns", 8.0, 0.5}});
  const Trace t = b.run({"C1.position", "C2.position"});
  expect_closed_books(t);

  const double area = circle(bore);
  const double first = t.steps[0].end, shut = t.steps[1].end, second = t.steps[2].end;
  const auto gained = [&](const char* position, double from, double to) {
    return at(t, position, to) - at(t, position, from);
  };
  EXPECT_CLOSE(gained("C1.position", 1.0, first), (first - 1.0) * lifting_speed(flow, mass[0], area));
  EXPECT_LT(std::abs(gained("C2.position", 0.0, shut)), 1 * si::micrometre);
  EXPECT_LT(std::abs(gained("C1.position", shut, second)), 1 * si::micrometre);
  EXPECT_CLOSE(gained("C2.position", second - 3.0, second), 3.0 * lifting_speed(flow, mass[1], area));
}

// Common practice: a pilot-operated check without leakage holds a load where it was left, until the pilot has
// p_X = (p_L + p_crack)/R; source of the balance: check value PC-01 with the cracking pressure added.
TEST(trade_fact, pilot_operated_check_holds_until_piloted) {
  Bench b;
  const double bore = 60 * si::mm, mass = 3000.0, ratio = 4.0, crack = 1 * si::bar;
  add_power_unit(b, 4 * si::cm3_per_minute,
                 {.cracking = 60 * si::bar, .rated_flow = 2 * si::litre_per_minute});
  add_lift_point(b, "C1", "M1", bore, mass, 0.3);
  b.part("H1", "hose", {{"bore", 6 * si::mm}, {"length", 4.0}});
  b.part("N1", "needle", {{"bore", 1 * si::mm}, {"turns", 8.0}});
  b.part("V2", "pilot_operated_check",
         {{"ratio", ratio}, {"cracking_pressure", crack}, {"rated_flow", 10 * si::litre_per_minute}});
  b.join({"P1.P", "H1.A"});
  b.join({"H1.B", "V2.X"});
  b.join({"V2.A", "T1.T"});
  b.join({"V2.B", "N1.A"});
  b.join({"N1.B", "C1.A"});
  b.step("hold", 60.0);
  b.step("pilot", 40.0, {{"P1", "running", 1.0}});
  const Trace t = b.run({"C1.position", "C1.A.pressure", "V2.X.pressure"});
  expect_closed_books(t);

  const double held = at(t, "C1.position", 0.0), told = t.steps[0].end;
  const auto& position = t.values[t.column("C1.position")];
  const double load = mass * si::gravity / circle(bore), opens_at = (load + crack) / ratio;
  EXPECT_CLOSE(at(t, "C1.A.pressure", told), load);
  double dropped = 0.0;  // the moment it is one micrometre down
  for (std::size_t i = 0; i < t.time.size(); ++i) {
    if (t.time[i] <= told) {
      EXPECT_LT(std::abs(position[i] - held), 1 * si::micrometre);
    }
    if (dropped == 0.0 && held - position[i] > 1 * si::micrometre) dropped = t.time[i];
  }
  ASSERT_GT(dropped, told);
  EXPECT_CLOSE(at(t, "V2.X.pressure", dropped), opens_at);
  EXPECT_LT(last(t, "C1.position"), held - 10 * si::mm);
}

// Physics: an overrunning load pulls the piston away from a pump that stands still or is too small; the space
// behind it empties to near vacuum and never further, and the oil is all there when the pump has filled it.
TEST(trade_fact, starved_cylinder_goes_to_near_vacuum_and_no_further) {
  for (const bool running : {false, true}) {
    Bench b;
    const double flow = 2 * si::litre_per_minute, bore = 50 * si::mm, stroke = 0.2;
    add_power_unit(b, flow, {.cracking = 150 * si::bar, .rated_flow = 10 * si::litre_per_minute});
    b.part("V2", "check", {{"rated_flow", 20 * si::litre_per_minute}});
    b.part("C1", "double_acting_cylinder", {{"bore", bore}, {"rod", 28 * si::mm}, {"stroke", stroke}});
    b.part("F1", "force", {{"force", 0.0}});
    b.part("N1", "needle", {{"bore", 2 * si::mm}, {"turns", 8.0}});
    b.join({"P1.P", "V2.A"});
    b.join({"V2.B", "C1.A"});
    b.join({"C1.B", "N1.A"});
    b.join({"N1.B", "T1.T"});
    b.join({"C1.rod", "F1.rod"});
    b.step("pull", 3.0, {{"F1", "force", -8 * si::kN, 0.5}, {"P1", "running", running ? 1.0 : 0.0}});
    b.step("fill", 15.0, {{"P1", "running", 1.0}});
    const Trace t = b.run({"C1.A.pressure", "C1.position"});
    expect_closed_books(t);

    ASSERT_GT(at(t, "C1.position", t.steps[0].end), stroke);
    EXPECT_GT(lowest(t, "C1.A.pressure"), -si::atmosphere);
    EXPECT_LT(lowest(t, "C1.A.pressure"), -0.99 * si::atmosphere);
    // Full when the pump has drawn the swept volume: a little before there is still vacuum, a little after
    // pressure.
    const double begin = running ? 0.0 : t.steps[1].begin;
    const double full = begin + circle(bore) * stroke / flow;
    EXPECT_LT(at(t, "C1.A.pressure", full - 0.01 * (full - begin)), 0.0);
    EXPECT_GT(at(t, "C1.A.pressure", full + 0.01 * (full - begin)), 1 * si::bar);
  }
}

// Physics: a pump cannot deliver more than the reservoir holds; the lift stops where the oil ends, and the
// run goes on.
TEST(trade_fact, pump_that_runs_the_reservoir_dry_stops_delivering) {
  Bench b;
  const double flow = 2 * si::litre_per_minute, bore = 80 * si::mm, mass = 2000.0, usable = 1 * si::litre;
  add_power_unit(b, flow, {.cracking = 200 * si::bar, .rated_flow = 10 * si::litre_per_minute}, usable);
  b.part("V2", "check", {{"rated_flow", 20 * si::litre_per_minute}});
  add_lift_point(b, "C1", "M1", bore, mass, 0.0);
  b.join({"P1.P", "V2.A"});
  b.join({"V2.B", "C1.A"});
  b.step("lift", 60.0, {{"P1", "running", 1.0, 0.3}});
  const Trace t = b.run({"C1.position", "C1.speed", "C1.A.pressure"});
  expect_closed_books(t);

  const Oil oil{OilData{}};
  const double area = circle(bore), p = mass * si::gravity / area,
               ratio = oil.density_at_zero() / oil.density(p).value;
  // The oil in the pump's suction port and in the relief's outlet is drawn with the rest.
  const double all = usable + (5 + 2) * si::cm3;
  EXPECT_CLOSE(t.books.mass_drawn, all * oil.density_at_zero());
  // What was drawn, and the oil that filled ports and dead space, stand compressed under the load.
  const double filled = (5 + 2 + 2 + 2 + 5) * si::cm3;  // pump, relief, check in and out, cylinder
  EXPECT_CLOSE(last(t, "C1.position"), ((all + filled) * ratio - filled) / area);
  EXPECT_LT(std::abs(last(t, "C1.speed")), 1 * si::micrometre);
}

}  // namespace
}  // namespace poise
