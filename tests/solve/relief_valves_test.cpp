// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Relief valves of every kind: each as a circuit or a law, with expected numbers from formulas or from a
// printed source. 0.1 % is the bar.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <utility>

#include "parts/pilot_operated_relief.hpp"
#include "support/trade.hpp"

namespace poise::workshop {
namespace {

constexpr double closed_form = 1e-3;
constexpr double psi = 6894.757293168;  // Pa (NIST SP 811)
constexpr double litres = si::litre_per_minute;

#define EXPECT_CLOSE(found, expected) EXPECT_NEAR(found, expected, closed_form* std::abs(expected))

/// T1, P1 without slip, H1 with a little volume; the valve's inlet goes to H1.B.
void add_pump(Bench& b, double flow) {
  b.part("T1", "reservoir", {{"usable_oil", 20 * si::litre}});
  b.part("P1", "pump", {{"flow", flow}, {"volumetric_efficiency", 1.0}, {"rated_pressure", 400 * si::bar}});
  b.part("G1", "gauge", {{"range", 400 * si::bar}, {"port_volume", 0.2 * si::litre}});
  b.join({"T1.T", "P1.S"});
  b.join({"P1.P", "G1.M"});
}

// Check value VL-01 (Esposito, Fluid Power with Applications, 6th ed., example 8-1): 0.75 in2 poppet, 2,500
// lbf/in, preload 0.20 in, 0.10 in lift at full flow: cracks at 667 psi, full flow at 1,000 psi. An override
// of half.
TEST(relief, a_simple_poppet_spring_of_the_printed_example_rises_from_667_to_1000_psi) {
  const double area = 0.75, rate = 2500.0, preload = 0.20, lift = 0.10;  // in2, lbf/in, in
  const double cracks = rate * preload / area * psi, full = rate * (preload + lift) / area * psi;
  EXPECT_NEAR(cracks / psi, 667.0, 0.5);
  const double flow = 20 * litres;
  Bench b;
  const Oil oil{b.plan.oil};
  add_pump(
      b, flow * oil.density(full).value / oil.density_at_zero());  // the rated flow as it stands at the valve
  b.part("V1", "relief", {{"setting", cracks}, {"override", (full - cracks) / cracks}, {"rated_flow", flow}});
  b.join({"G1.M", "V1.P"});
  b.join({"V1.T", "T1.T"});
  b.step("over the relief", 3.0, {{"P1", "running", 1.0}});
  const Trace trace = b.run({"G1.pressure"});
  expect_closed_books(trace);
  // The law rounds the end of the band: a hundredth of it.
  EXPECT_NEAR(last(trace, "G1.pressure"), 1000.0 * psi, 0.01 * (full - cracks));
}

Values with_curve(std::string_view kind, Points points) {
  Bench b;
  b.part("V1", kind);
  b.points("V1", "override_curve", std::move(points));
  return b.plan.parts[0].values;
}

TEST(relief, an_override_curve_gives_back_the_valve_it_was_drawn_from) {
  for (const double band : {8 * si::bar, 40 * si::bar}) {
    for (const double last_share : {1.0, 1.25}) {  // the curve ends at full opening, or goes on past it
      const ReliefOpening drawn(190 * si::bar, band, 12 * litres);
      Points points;
      for (double share : {0.05, 0.2, 0.4, 0.7, 1.0}) {
        const double flow = share * last_share * 12 * litres;
        points.push_back({flow, drawn.pressure(flow)});
      }
      const Values v = with_curve("relief", points);
      EXPECT_TRUE(find_kind("relief")->check(v).empty());
      const ReliefOpening found(v);
      EXPECT_CLOSE(found.cracking, drawn.cracking);
      EXPECT_NEAR(found.band, drawn.band, 0.01 * drawn.band);
      const auto curves = find_kind("relief")->curves(v, Oil{OilData{}});
      ASSERT_EQ(curves.size(), 1u);
      EXPECT_LT(curves[0].worst(), 1e-4);
      EXPECT_EQ(curves[0].rows.size(), points.size());
    }
  }
}

// Points as read off paper: no other cracking pressure and band come nearer to them.
TEST(relief, a_fitted_override_curve_leaves_the_least_squares) {
  const Points points{{1 * litres, 201 * si::bar},
                      {3 * litres, 204 * si::bar},
                      {6 * litres, 212 * si::bar},
                      {9 * litres, 214 * si::bar},
                      {12 * litres, 221 * si::bar}};
  const Values v = with_curve("relief", points);
  const ReliefOpening found(v);
  const auto misfit = [&](const ReliefOpening& valve) {
    double sum = 0.0;
    for (const CurvePoint& p : points) sum += std::pow(valve.pressure(p.x) - p.y, 2);
    return sum;
  };
  const double least = misfit(found);
  for (double dc : {-1.0, 0.0, 1.0}) {
    for (double db : {-1.0, 0.0, 1.0}) {
      const double step = 0.3 * si::bar;
      const ReliefOpening other(found.cracking + dc * step, found.band + db * step, 12 * litres);
      EXPECT_GE(misfit(other), least * (1.0 - 1e-9));
    }
  }
  EXPECT_LT(find_kind("relief")->curves(v, Oil{OilData{}})[0].worst(), 0.01);
}

TEST(relief, with_a_curve_runs_at_the_pressure_of_the_curve) {
  const ReliefOpening drawn(150 * si::bar, 30 * si::bar, 10 * litres);
  Bench b;
  const double flow = 5 * litres;
  add_pump(b, flow);
  b.part("V1", "relief");
  Points points;
  for (double q : {1.0, 4.0, 7.0, 10.0}) points.push_back({q * litres, drawn.pressure(q * litres)});
  b.points("V1", "override_curve", points);
  b.join({"G1.M", "V1.P"});
  b.join({"V1.T", "T1.T"});
  b.step("over the relief", 3.0, {{"P1", "running", 1.0}});
  const Trace trace = b.run({"G1.pressure"});
  expect_closed_books(trace);
  const Oil oil{b.plan.oil};
  const double p = last(trace, "G1.pressure");
  EXPECT_CLOSE(p, drawn.pressure(flow * oil.density_at_zero() / oil.density(p).value));
}

TEST(relief, a_curve_beside_a_setting_or_one_that_falls_is_refused) {
  Values v = with_curve("relief", {{1 * litres, 100e5}, {2 * litres, 120e5}, {3 * litres, 110e5}});
  ASSERT_EQ(find_kind("relief")->check(v).size(), 1u);
  EXPECT_EQ(find_kind("relief")->check(v)[0].parameter, "override_curve");
  v.set_points(*find_parameter(v.table(), "override_curve"),
               {{1 * litres, 100e5}, {2 * litres, 110e5}, {3 * litres, 120e5}});
  EXPECT_TRUE(find_kind("relief")->check(v).empty());
  v.set(*find_parameter(v.table(), "setting"), 100e5);
  ASSERT_EQ(find_kind("relief")->check(v).size(), 1u);
  EXPECT_EQ(find_kind("relief")->check(v)[0].parameter, "setting");
}

/// Inlet pressure of a limit that returns over a second relief valve, set to `back`, while the pump runs over
/// it, and the pressure in its outlet.
std::array<double, 2> inlet_and_outlet(std::string_view kind, double back) {
  Bench b;
  add_pump(b, 6 * litres);
  b.part("V1", kind, {{"setting", 150 * si::bar}, {"rated_flow", 20 * litres}});
  b.part("G2", "gauge", {{"range", 100 * si::bar}, {"port_volume", 0.2 * si::litre}});
  b.part("V2", "relief", {{"setting", back}, {"rated_flow", 40 * litres}});
  b.join({"G1.M", "V1.P"});
  b.join({"V1.T", "V2.P", "G2.M"});
  b.join({"V2.T", "T1.T"});
  if (kind == "externally_drained_relief") b.join({"V1.Y", "T1.T"});
  b.step("over the relief", 5.0, {{"P1", "running", 1.0}});
  const Trace trace = b.run({"G1.pressure", "G2.pressure"});
  expect_closed_books(trace);
  return {last(trace, "G1.pressure"), last(trace, "G2.pressure")};
}

// Physics contract §4: the outlet's pressure adds to the setting of a valve whose spring chamber sees it, and
// not to that of one that is drained outside. There it takes some opening only: x² = (a·Q² + b·Q)/(p_P −
// p_T).
TEST(externally_drained_relief, back_pressure_does_not_add_where_it_does_for_the_others) {
  const double back = 40 * si::bar, setting = 150 * si::bar, band = 15 * si::bar;
  const auto [direct, direct_back] = inlet_and_outlet("relief", back);
  const auto [pilot, pilot_back] = inlet_and_outlet("pilot_operated_relief", back);
  const auto [drained, drained_back] = inlet_and_outlet("externally_drained_relief", back);
  ASSERT_GT(direct_back, back);
  EXPECT_GT(direct, setting + back);
  EXPECT_GT(pilot, setting + back);
  EXPECT_LT(pilot, direct);  // its override is smaller

  const Oil oil{OilData{}};
  const Restriction open = Restriction::through(20 * litres, setting + band);
  double expected = setting + band;
  for (int i = 0; i < 100; ++i) {
    const double q = 6 * litres * oil.density_at_zero() / oil.density(expected).value;
    expected = setting + band * std::sqrt(open.drop(q) / (expected - drained_back));
  }
  EXPECT_CLOSE(drained, expected);
}

/// A pump over a pilot-operated valve whose vent goes to tank over a shut-off valve.
Bench piloted(double flow, double rated) {
  Bench b;
  add_pump(b, flow);
  b.part("V1", "pilot_operated_relief", {{"setting", 250 * si::bar}, {"rated_flow", rated}, {"vent", 1.0}});
  b.part("N1", "shut_off", {{"position", 0.0}, {"rated_flow", 10 * litres}, {"turning_time", 0.05}});
  b.join({"G1.M", "V1.P"});
  b.join({"V1.X", "N1.A"});
  b.join({"V1.T", "N1.B", "T1.T"});
  return b;
}

TEST(pilot_operated_relief, begins_at_its_setting_and_passes_its_rated_flow_at_the_end_of_a_small_override) {
  const double rated = 60 * litres, pilot_flow = 0.5 * litres;
  Bench b;
  const Oil oil{b.plan.oil};
  const double setting = 250 * si::bar, full = 1.03 * setting;
  const double denser = oil.density(full).value / oil.density_at_zero();
  // As the main stage begins to lift, only the pilot passes oil; at the end, the rated flow does beside it.
  for (const auto& [flow, expected] :
       {std::pair{pilot_flow * denser, setting}, {(rated + pilot_flow) * denser, full}}) {
    Bench one = piloted(flow, rated);
    one.step("over the valve", 12.0, {{"P1", "running", 1.0}});
    const Trace trace = one.run({"G1.pressure", "V1.opening"});
    expect_closed_books(trace);
    EXPECT_CLOSE(last(trace, "G1.pressure"), expected);
  }
}

TEST(pilot_operated_relief, set_with_a_flow_over_it_it_reads_its_setting_at_that_flow) {
  Bench b;
  b.part("V1", "pilot_operated_relief",
         {{"setting", 250 * si::bar}, {"setting_flow", 30 * litres}, {"rated_flow", 60 * litres}});
  const Values& v = b.values("V1");
  EXPECT_TRUE(find_kind("pilot_operated_relief")->check(v).empty());
  const double cracking = PilotOperatedRelief::cracking_of(v);
  EXPECT_LT(cracking, 250 * si::bar);
  EXPECT_GT(cracking, 250 * si::bar / 1.03);
  EXPECT_CLOSE(PilotOperatedRelief::Stages(v, cracking).pressure(30 * litres), 250 * si::bar);
}

// Let to tank at X, the main spring alone holds it: the pump idles at a few bar. p_P = p_X + spring +
// x·(stiffness + flow_force·p), x² = drop(Q)/p.
TEST(pilot_operated_relief, let_to_tank_at_its_vent_it_unloads_the_pump) {
  Bench b = piloted(40 * litres, 60 * litres);
  b.step("at pressure", 2.0, {{"P1", "running", 1.0}});
  b.step("unloaded", 2.0, {{"N1", "position", 1.0, 0.05}});
  b.step("at pressure again", 3.0, {{"N1", "position", 0.0, 0.05}});
  const Trace trace = b.run({"G1.pressure", "V1.X.pressure", "V1.P.flow"});
  expect_closed_books(trace);
  EXPECT_GT(at(trace, "G1.pressure", 1.99), 250 * si::bar);
  EXPECT_GT(last(trace, "G1.pressure"), 250 * si::bar);
  const double p = at(trace, "G1.pressure", 3.99);
  EXPECT_LT(p, 10 * si::bar);
  const PilotOperatedRelief valve(b.values("V1"), Oil{b.plan.oil});
  const auto& s = valve.stages;
  const double chamber = at(trace, "V1.X.pressure", 3.99);
  const double main = at(trace, "V1.P.flow", 3.99) - s.orifice.flow(p - chamber, 1.0);
  const double x = std::sqrt(s.main.drop(main) / p);
  EXPECT_CLOSE(p, chamber + s.spring + x * (s.stiffness + s.flow_force * p));
}

// Common practice: a small relief valve at the vent sets the big one from afar, to its own pressure and the
// main spring.
TEST(pilot_operated_relief, a_small_valve_at_its_vent_sets_it_from_afar) {
  Bench b;
  add_pump(b, 20 * litres);
  b.part("V1", "pilot_operated_relief",
         {{"setting", 250 * si::bar}, {"rated_flow", 60 * litres}, {"vent", 1.0}});
  b.part("V2", "relief",
         {{"setting", 80 * si::bar}, {"rated_flow", 2 * litres}, {"response_time", 0.5 * si::ms}});
  b.join({"G1.M", "V1.P"});
  b.join({"V1.X", "V2.P"});
  b.join({"V1.T", "V2.T", "T1.T"});
  b.step("over the valve", 4.0, {{"P1", "running", 1.0}});
  const Trace trace = b.run({"G1.pressure", "V1.X.pressure"});
  expect_closed_books(trace);
  const double p = last(trace, "G1.pressure"), chamber = last(trace, "V1.X.pressure");
  EXPECT_GE(chamber, 80 * si::bar);
  EXPECT_LE(chamber, 80 * si::bar * 1.1);
  EXPECT_GT(p - chamber, 4 * si::bar);  // the main spring
  EXPECT_LT(p, 80 * si::bar * 1.1 + 4 * si::bar + 0.03 * 250 * si::bar);
}

TEST(pilot_operated_relief, what_it_cannot_be_is_refused) {
  Bench b;
  b.part("V1", "pilot_operated_relief", {{"setting", 15 * si::bar}, {"rated_flow", 60 * litres}});
  ASSERT_EQ(find_kind("pilot_operated_relief")->check(b.values("V1")).size(), 1u);
  b.set("V1", "setting", 60 * si::bar);
  EXPECT_TRUE(find_kind("pilot_operated_relief")->check(b.values("V1")).empty());
  b.set("V1", "override", 0.005);
  ASSERT_EQ(find_kind("pilot_operated_relief")->check(b.values("V1")).size(), 1u);
  EXPECT_EQ(find_kind("pilot_operated_relief")->check(b.values("V1"))[0].parameter, "override");
}

}  // namespace
}  // namespace poise::workshop
