// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Relief valves of every kind, unloading, reducing and sequence valves, counterbalance valves: each as a
// circuit or a law, with expected numbers from formulas or from a printed source. 0.1 % is the bar.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>
#include <vector>

#include "parts/counterbalance.hpp"
#include "parts/pilot_operated_relief.hpp"
#include "support/trade.hpp"

namespace poise::workshop {
namespace {

constexpr double closed_form = 1e-3;
constexpr double psi = 6894.757293168;  // Pa (NIST SP 811)
constexpr double litres = si::litre_per_minute;

#define EXPECT_CLOSE(found, expected) EXPECT_NEAR(found, expected, closed_form* std::abs(expected))

const Values& values_of_part(const Bench& b, std::string_view tag) {
  for (const PlannedPart& part : b.plan.parts) {
    if (part.tag == tag) return part.values;
  }
  throw std::runtime_error("no part " + std::string(tag));
}

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
  const Values& v = values_of_part(b, "V1");
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
  const PilotOperatedRelief valve(values_of_part(b, "V1"), Oil{b.plan.oil});
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
  ASSERT_EQ(find_kind("pilot_operated_relief")->check(values_of_part(b, "V1")).size(), 1u);
  b.set("V1", "setting", 60 * si::bar);
  EXPECT_TRUE(find_kind("pilot_operated_relief")->check(values_of_part(b, "V1")).empty());
  b.set("V1", "override", 0.005);
  ASSERT_EQ(find_kind("pilot_operated_relief")->check(values_of_part(b, "V1")).size(), 1u);
  EXPECT_EQ(find_kind("pilot_operated_relief")->check(values_of_part(b, "V1"))[0].parameter, "override");
}

// High-low: two pumps, the big one unloaded by a pilot from behind its check. Physics contract §4: it snaps
// open at the setting and stays open until the pilot is 15 % below.
TEST(unloading_valve, lets_the_big_pump_idle_near_nothing_while_the_small_one_holds_the_pressure) {
  const double low_flow = 20 * litres, high_flow = 2 * litres, unloads = 60 * si::bar;
  Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 40 * si::litre}});
  for (const auto& [tag, flow] : {std::pair{"P1", low_flow}, {"P2", high_flow}})
    b.part(tag, "pump", {{"flow", flow}, {"volumetric_efficiency", 1.0}, {"rated_pressure", 250 * si::bar}});
  b.part("V1", "unloading_valve",
         {{"setting", unloads}, {"rated_flow", 25 * litres}, {"pressure_drop", 3 * si::bar}});
  b.part("V2", "check", {{"rated_flow", 25 * litres}});
  b.part("V3", "relief", {{"setting", 200 * si::bar}, {"rated_flow", 4 * litres}});
  b.part("G1", "gauge", {{"range", 250 * si::bar}, {"port_volume", 0.2 * si::litre}});
  b.part("G2", "gauge", {{"range", 250 * si::bar}, {"port_volume", 0.3 * si::litre}});
  b.part("N1", "needle", {{"bore", 4 * si::mm}, {"turns", 0.0}});
  b.join({"T1.T", "P1.S", "P2.S", "V1.T", "V3.T", "N1.B"});
  b.join({"P1.P", "V1.P", "V2.A", "G1.M"});
  b.join({"P2.P", "V2.B", "V1.X", "V3.P", "G2.M", "N1.A"});
  b.step("fill and press", 4.0, {{"P1", "running", 1.0}, {"P2", "running", 1.0}});
  b.step("let down slowly", 6.0, {{"N1", "turns", 2.0, 6.0}});
  const Trace trace = b.run({"G1.pressure", "G2.pressure", "V1.opening", "V1.unloading"});
  expect_closed_books(trace);

  // Unloaded, the big pump sees the open valve's drop and no more: Δp = a·Q² + b·Q.
  const Restriction open = Restriction::through(25 * litres, 3 * si::bar);
  const Oil oil{b.plan.oil};
  const double idle = at(trace, "G1.pressure", 3.9);
  EXPECT_CLOSE(idle, open.drop(low_flow * oil.density_at_zero() / oil.density(idle).value));
  EXPECT_LT(idle, 3 * si::bar);
  EXPECT_GT(at(trace, "G2.pressure", 3.9), 200 * si::bar);  // the small one holds the relief's pressure

  std::vector<double> snaps, shuts;
  for (const Event& e : trace.events) {
    if (e.sentence == "V1 snaps open") snaps.push_back(e.time);
    if (e.sentence == "V1 shuts") shuts.push_back(e.time);
  }
  ASSERT_GE(snaps.size(), 1u);
  ASSERT_GE(shuts.size(), 1u);
  EXPECT_CLOSE(at(trace, "G2.pressure", snaps[0]), unloads);
  EXPECT_CLOSE(at(trace, "G2.pressure", shuts[0]), 0.85 * unloads);
  EXPECT_GT(shuts[0], 4.0);
}

// With the pilot outside, the pressure at the inlet does not open it and that of the pilot does; the drain
// counts.
TEST(sequence, an_outside_pilot_alone_opens_it) {
  const auto opening = [](double inlet, double pilot, double drain) {
    Bench b;
    b.part("V1", "sequence", {{"setting", 100 * si::bar}, {"pilot", 1.0}, {"rated_flow", 10 * litres}});
    const Laws laws = find_kind("sequence")->make(values_of_part(b, "V1"), Oil{OilData{}});
    Neighbourhood n{};
    const Oil oil{OilData{}};
    for (int i = 0; i < 4; ++i) {
      const double p = std::array{inlet, 0.0, drain, pilot}[i];
      n.oil[i] = {p, oil.density(p).value, 1.0, 0.0};
    }
    Answers a;
    laws.answer(laws.numbers.get(), n, a);
    return a.row[4] * 10 * si::ms;  // the opening it goes to, from 0, in its response time
  };
  EXPECT_EQ(opening(300 * si::bar, 90 * si::bar, 0.0), 0.0);
  EXPECT_NEAR(opening(20 * si::bar, 102.5 * si::bar, 0.0), 0.5, 1e-9);  // half of the band of 5 bar
  EXPECT_EQ(opening(20 * si::bar, 102.5 * si::bar, 10 * si::bar), 0.0);
}

TEST(sequence, has_a_pilot_port_only_with_the_pilot_outside) {
  for (const double pilot : {0.0, 1.0}) {
    Bench b;
    b.part("V1", "sequence", {{"setting", 100 * si::bar}, {"pilot", pilot}, {"rated_flow", 10 * litres}});
    b.plug("V1.A");
    b.plug("V1.B");
    b.plug("V1.Y");
    EXPECT_EQ(faults_of(b.plan).size(), pilot);
  }
}

// Common practice (a reducing valve on a dead end): what leaks past its seat raises the closed branch towards
// the main. One volume behind a laminar leak k·(p_main − p): time by Simpson's rule over dm/(ρ·k·(p_main −
// p)).
TEST(reducing_non_relieving, a_closed_branch_climbs_by_what_leaks_past_its_seat) {
  const double setting = 80 * si::bar, main = 200 * si::bar, leak = 3 * si::cm3_per_minute,
               rated = 250 * si::bar;
  Bench b;
  const ReliefData relief{.cracking = main, .rated_flow = 12 * litres};
  add_power_unit(b, 4 * litres, relief);
  b.part("G1", "gauge", {{"range", 400 * si::bar}, {"port_volume", 0.2 * si::litre}});
  b.part("V2", "reducing_non_relieving",
         {{"setting", setting}, {"rated_flow", 12 * litres}, {"leakage", leak}, {"rated_pressure", rated}});
  b.part("G2", "gauge", {{"range", 400 * si::bar}, {"give", 0.0}, {"port_volume", 0.1 * si::litre}});
  b.join({"P1.P", "G1.M", "V2.P"});
  b.join({"V2.A", "G2.M"});
  b.join({"V2.T", "T1.T"});
  b.step("press and wait", 60.0, {{"P1", "running", 1.0}});
  solve::RunOptions tight;  // a slow creep adds up small errors; what is asked for here is the law
  tight.tolerances = tight.tolerances.tighter(10.0);
  const Trace trace = b.run({"G1.pressure", "G2.pressure"}, tight);
  expect_closed_books(trace);

  const double p1 = last(trace, "G1.pressure"), from = at(trace, "G2.pressure", 10.0),
               to = last(trace, "G2.pressure");
  ASSERT_GT(from, setting);
  ASSERT_GT(to, from + 10 * si::bar);
  const Oil oil{b.plan.oil};
  const double volume = 0.1 * si::litre + 2 * si::cm3, k = leak / rated;  // gauge and the valve's port
  double expected = 0.0;
  const int pieces = 200;
  for (int i = 0; i <= pieces; ++i) {
    const double p = from + (to - from) * i / pieces;
    const auto density = oil.density(p);
    const double weight = i == 0 || i == pieces ? 1.0 : (i % 2 ? 4.0 : 2.0);
    expected += weight * volume * density.slope / (oil.density(p1).value * k * (p1 - p));
  }
  expected *= (to - from) / pieces / 3.0;
  EXPECT_CLOSE(50.0, expected);
}

TEST(reducing_non_relieving, lets_the_branch_return_by_its_reverse_check) {
  const auto left = [](double fitted) {
    Bench b;
    add_power_unit(b, 4 * litres, {.cracking = 150 * si::bar, .rated_flow = 12 * litres});
    b.part("V3", "directional_3_2", {{"rated_flow", 20 * litres}});
    b.part("V2", "reducing_non_relieving",
           {{"setting", 80 * si::bar}, {"rated_flow", 12 * litres}, {"reverse_check", fitted}});
    b.part("C1", "single_acting_cylinder",
           {{"bore", 40 * si::mm}, {"stroke", 0.05}, {"spring_preload", 600.0}});
    b.part("F1", "force", {{"force", 9 * si::kN}});
    b.join({"P1.P", "V3.P"});
    b.join({"V3.A", "V2.P"});
    b.join({"V2.A", "C1.A"});
    b.join({"V3.T", "V2.T", "T1.T"});
    b.join({"C1.rod", "F1.rod"});
    b.step("press", 3.0, {{"P1", "running", 1.0}, {"V3", "position", 1.0, 0.05}});
    b.step("load", 1.0,
           {{"F1", "force", 15 * si::kN, 0.3}});  // 119 bar: above the setting, the valve is shut
    b.step("return", 1.0, {{"V3", "position", 0.0, 0.05}});
    const Trace trace = b.run({"C1.A.pressure", "C1.position"});
    expect_closed_books(trace);
    EXPECT_GT(at(trace, "C1.A.pressure", 3.95), 100 * si::bar);
    return at(trace, "C1.A.pressure", 4.3);
  };
  EXPECT_LT(left(1.0), 40 * si::bar);
}

// Words for tightness: a drop is 0.05 cm3 (common practice); 15 drops/min at the rated pressure pass half of
// it at half.
TEST(leakage_class, words_stand_for_a_flow_at_the_rated_pressure) {
  const Oil oil{OilData{}};
  for (std::string_view kind : {"check", "pilot_operated_check", "shut_off"}) {
    const auto flow = [&](double word, double pressure) {
      Bench b;
      b.part("V1", kind,
             {{"rated_flow", 10 * litres}, {"rated_pressure", 250 * si::bar}, {"leakage_class", word}});
      if (kind == "shut_off") b.set("V1", "position", 0.0);
      if (kind == "pilot_operated_check") b.set("V1", "ratio", 3.0);
      const Laws laws = find_kind(kind)->make(values_of_part(b, "V1"), oil);
      Neighbourhood n{};
      for (int i = 0; i < 4; ++i) n.oil[i] = {0.0, oil.density(0.0).value, 1.0, 0.0};
      n.oil[1] = {pressure, oil.density(pressure).value, 1.0, 0.0};  // against the free direction
      n.input[0] = {0.0, 0.0, 1.0};
      Answers a;
      laws.answer(laws.numbers.get(), n, a);
      return a.row[1] / oil.density(pressure).value;
    };
    EXPECT_EQ(flow(0.0, 250 * si::bar), 0.0) << kind;
    EXPECT_NEAR(flow(3.0, 250 * si::bar), 15 * 0.05e-6 / 60.0, 1e-15) << kind;
    EXPECT_NEAR(flow(3.0, 125 * si::bar), 7.5 * 0.05e-6 / 60.0, 1e-15) << kind;
  }
  Bench b;
  b.part("V1", "check", {{"rated_flow", 10 * litres}, {"leakage", 1e-9}, {"leakage_class", 1.0}});
  EXPECT_EQ(find_kind("check")->check(values_of_part(b, "V1")).size(), 1u);
}

/// Opening that a counterbalance valve goes to.
double counterbalanced(double load, double valve, double pilot, double vent, double chamber) {
  Bench b;
  b.part(
      "V1", "counterbalance",
      {{"setting", 195 * si::bar}, {"ratio", 3.0}, {"rated_flow", 20 * litres}, {"spring_chamber", chamber}});
  const Oil oil{OilData{}};
  const Counterbalance cb(values_of_part(b, "V1"), oil);
  Here<Counterbalance, double> here;
  for (int i = 0; i < 4; ++i) {
    const double p = std::array{load, valve, pilot, vent}[i];
    here.oil[i] = {p, oil.density(p).value};
  }
  return cb.law(here).rate[0] * 10 * si::ms;
}

// Check value CB-03: load 150 bar, set to 1.3 times that, ratio 3: 195 bar, and the pilot opens it from 15
// bar on.
TEST(counterbalance, set_to_1_3_of_a_load_of_150_bar_needs_a_pilot_of_15_bar) {
  const double band = 0.05 * 195 * si::bar;
  EXPECT_EQ(counterbalanced(150 * si::bar, 0.0, 14.9 * si::bar, 0.0, 0.0), 0.0);
  EXPECT_NEAR(counterbalanced(150 * si::bar, 0.0, 15 * si::bar + 0.5 * band / 3.0, 0.0, 0.0), 0.5, 1e-9);
  EXPECT_EQ(counterbalanced(194.8 * si::bar, 0.0, 0.0, 0.0, 0.0), 0.0);
  EXPECT_NEAR(counterbalanced(195 * si::bar + 0.5 * band, 0.0, 0.0, 0.0, 0.0), 0.5, 1e-9);
}

// Physics contract §4: back pressure counts (1 + R) times, unless the spring chamber is vented.
TEST(counterbalance, back_pressure_counts_one_and_the_ratio_times_unless_vented) {
  const double back = 10 * si::bar, band = 0.05 * 195 * si::bar;
  const double half = 195 * si::bar + 0.5 * band;
  EXPECT_EQ(counterbalanced(half + 3.9 * back - 0.5 * band, back, 0.0, 0.0, 0.0), 0.0);
  EXPECT_NEAR(counterbalanced(half + 4.0 * back, back, 0.0, 0.0, 0.0), 0.5, 1e-9);
  EXPECT_NEAR(counterbalanced(half, back, 0.0, 0.0, 1.0), 0.5, 1e-9);
  EXPECT_NEAR(counterbalanced(half + 4.0 * back, 0.0, 0.0, back, 1.0), 0.5,
              1e-9);  // pressure in the vent counts
}

struct Lift {
  double bore = 60 * si::mm, rod = 40 * si::mm, load = 28 * si::kN, flow = 6 * litres;
  double setting = 130 * si::bar, ratio = 3.0, share = 0.3, back = 0.0;
  double vented = 0.0, damping = 6e4;
  double cap() const { return circle(bore); }
  double around_rod() const { return circle(bore) - circle(rod); }
};

/// A cylinder under a weight, lowered by the pump over the rod side: the counterbalance valve stands at the
/// cap side, its pilot on the rod side. `back`: a relief valve in the tank line that holds some pressure
/// behind it.
Bench lowering(const Lift& l) {
  Bench b;
  add_power_unit(b, l.flow, {.cracking = 180 * si::bar, .rated_flow = 20 * litres});
  b.part("V2", "directional_4_3",
         {{"centre", 3.0}, {"rated_flow", 60 * litres}, {"pressure_drop", 2 * si::bar}});
  b.part("V3", "counterbalance",
         {{"setting", l.setting},
          {"ratio", l.ratio},
          {"override", l.share},
          {"spring_chamber", l.vented},
          {"rated_flow", 30 * litres},
          {"response_time", 10 * si::ms}});
  b.part("C1", "double_acting_cylinder",
         {{"bore", l.bore},
          {"rod", l.rod},
          {"stroke", 0.5},
          {"start_position", 0.45},
          {"friction", 0.0},
          {"seal_friction", 0.0},
          {"damping", l.damping}});
  b.part("M1", "mass", {{"mass", l.load / si::gravity}});
  b.part("V4", "relief", {{"setting", std::max(l.back, 0.5 * si::bar)}, {"rated_flow", 60 * litres}});
  b.part("G1", "gauge",
         {{"range", 250 * si::bar}, {"port_volume", 0.5 * si::litre}});  // the hose to the rod side
  b.join({"P1.P", "V2.P"});
  b.join({"V2.A", "V3.B"});
  b.join({"V3.A", "C1.A"});
  b.join({"V2.B", "C1.B", "V3.X", "G1.M"});
  b.join({"V2.T", "V4.P"});
  b.join({"V4.T", "T1.T"});
  if (l.vented == 1.0) b.join({"V3.Y", "T1.T"});
  b.join({"C1.rod", "M1.rod"});
  b.step("hold", 2.0, {{"P1", "running", 1.0}});
  b.step("lower", 3.0, {{"V2", "position", 2.0, 0.1}});
  b.step("hold again", 2.0, {{"V2", "position", 0.0, 0.1}});
  return b;
}

// Force balance, cap side: p_cap = p_load + p_X/φ, so the valve opens from p_X = (p_set − p_load)/(R + 1/φ)
// on, plus the share of its band that the flow needs, plus what stands behind it: (1 + R)·p_back.
TEST(counterbalance, lowers_an_overrunning_load_at_the_pumps_pace_and_with_the_pilot_of_the_formula) {
  Lift lift;
  for (const double back : {0.0, 8 * si::bar}) {
    for (const double vented : {0.0, 1.0}) {
      lift.back = back;
      lift.vented = vented;
      const Bench b = lowering(lift);
      const Trace t =
          b.run({"C1.A.pressure", "C1.B.pressure", "C1.speed", "C1.position", "V3.B.pressure", "V3.opening"});
      expect_closed_books(t);
      // Held: it does not sink.
      EXPECT_NEAR(at(t, "C1.position", 1.95), at(t, "C1.position", 1.0), 1e-6);
      const double when = 4.9;
      // Lowered: as fast as the pump fills the rod side, and never faster: the rod side stays pressed.
      const Oil oil{b.plan.oil};
      const double pilot = at(t, "C1.B.pressure", when);
      const double speed = -lift.flow * oil.density_at_zero() / oil.density(pilot).value / lift.around_rod();
      EXPECT_CLOSE(at(t, "C1.speed", when), speed);
      const double phi = lift.cap() / lift.around_rod(),
                   load = (lift.load + lift.damping * speed) / lift.cap();
      const double behind = at(t, "V3.B.pressure", when), x = at(t, "V3.opening", when);
      const double counted = vented == 1.0 ? 0.0 : (1.0 + lift.ratio) * behind;
      const double expected =
          (lift.setting + x * lift.share * lift.setting + counted - load) / (lift.ratio + 1.0 / phi);
      EXPECT_CLOSE(pilot, expected);
      EXPECT_GT(pilot, 0.0);
      // Stopped: it holds again.
      EXPECT_NEAR(last(t, "C1.position"), at(t, "C1.position", 6.5), 1e-6);
    }
  }
}

// Check values CB-01 and CB-02 (Trinkel, fluid power e-book, Book 2, ch. 5, fig. 5-13): vertical press,
// cap 50.27 in2 at 2,000 psi, platen of 15,000 lbf, rod side 26.51 in2 behind an internally piloted valve at
// 716 psi, 1.265 times the load's pressure: 96,559 lbf are left to work with.
TEST(counterbalance, without_an_outside_pilot_takes_its_setting_from_the_force_of_a_press) {
  constexpr double inch = 0.0254, lbf = 4.4482216152605;  // NIST SP 811
  const double cap = 50.27 * inch * inch, around_rod = 26.51 * inch * inch;
  const double setting = 716 * psi, platen = 15000 * lbf, left = 96559 * lbf;
  EXPECT_NEAR(setting / (platen / around_rod), 1.265, 1e-3);
  Bench b;
  add_power_unit(b, 10 * litres, {.cracking = 200 * si::bar, .rated_flow = 30 * litres});
  b.part("G1", "gauge", {{"range", 400 * si::bar}, {"port_volume", 0.5 * si::litre}});
  b.part("V3", "counterbalance",
         {{"setting", setting}, {"ratio", 0.0}, {"override", 0.02}, {"rated_flow", 200 * litres}});
  b.part("C1", "double_acting_cylinder",
         {{"bore", std::sqrt(4.0 * cap / std::numbers::pi)},
          {"rod", std::sqrt(4.0 * (cap - around_rod) / std::numbers::pi)},
          {"stroke", 0.2},
          {"start_position", 0.1},
          {"friction", 0.0},
          {"seal_friction", 0.0},
          {"damping", 5e4}});
  b.part("M1", "mass", {{"mass", platen / si::gravity}, {"slope", -90 * si::degree}});
  b.part("F1", "force", {{"force", left}});
  b.join({"P1.P", "C1.A", "G1.M"});
  b.join({"C1.B", "V3.A"});
  b.join({"V3.B", "V3.X", "T1.T"});
  b.join({"C1.rod", "M1.rod", "F1.rod"});
  b.step("press", 5.0, {{"P1", "running", 1.0}});
  const Trace t = b.run({"C1.A.pressure", "C1.B.pressure", "C1.speed"});
  expect_closed_books(t);
  ASSERT_GT(last(t, "C1.speed"), 0.004);
  EXPECT_CLOSE(last(t, "C1.A.pressure"), 2000 * psi);
  EXPECT_NEAR(last(t, "C1.B.pressure"), setting, 0.02 * setting);
}

// Vendors' application notes: a high ratio bounces where a low one lets the same load down evenly. With
// little to damp it.
TEST(counterbalance, a_high_ratio_bounces_where_a_low_one_is_steady) {
  const auto swing = [](double ratio) {
    Lift lift;
    lift.damping = 2e4;
    lift.ratio = ratio;
    const Trace t = lowering(lift).run({"C1.speed"});
    double low = no_limit, high = -no_limit;
    for (double time = 4.5; time < 4.99; time += 0.001) {
      low = std::min(low, at(t, "C1.speed", time));
      high = std::max(high, at(t, "C1.speed", time));
    }
    return (high - low) / (lift.flow / lift.around_rod());
  };
  EXPECT_LT(swing(1.0), 0.01);
  EXPECT_GT(swing(5.0), 0.2);
}

// The same load on a plain check of the directional valve runs away: the pump cannot follow and the rod side
// starves.
TEST(counterbalance, without_it_the_load_runs_ahead_of_the_pump) {
  Lift lift;
  Bench b = lowering(lift);
  b.set("V3", "least_opening", 1.0);  // stuck open
  b.set("V2", "centre", 0.0);         // the spool alone holds it until it is lowered
  const Trace t = b.run({"C1.B.pressure", "C1.speed"});
  expect_closed_books(t);
  EXPECT_LT(lowest(t, "C1.B.pressure"), -0.5 * si::bar);
  EXPECT_LT(lowest(t, "C1.speed"), -2.0 * lift.flow / lift.around_rod());
}

}  // namespace
}  // namespace poise::workshop
