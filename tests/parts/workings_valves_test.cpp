// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What valves and lines write down is what their laws do: the part is put into the state that the calculation
// names and asked for its flow.
#include <gtest/gtest.h>

#include <cmath>

#include "parts/kind.hpp"
#include "support/duties.hpp"
#include "support/one_part.hpp"
#include "support/workshop.hpp"

namespace poise {
namespace {

using workshop::OnePart;
using workshop::result;

constexpr double litre = si::litre_per_minute;
constexpr double exact = 1e-9;  // relative; both sides are closed forms

std::vector<Working> workings_of(const OnePart& part, const workshop::Steady& steady) {
  return part.kind().workings(part.values(), part.oil(), workshop::duty_of(steady));
}

// Given a relief that cracks at 150 bar and passes 12 L/min 15 bar above that; when 5 L/min go over it and
// its spool has come to rest, then pressure and opening are those of its calculation.
TEST(workings_of_a_relief, are_a_state_of_rest_of_its_law) {
  OnePart relief("relief", {{"setting", 150e5}, {"rated_flow", 12 * litre}, {"override", 0.1}});
  const auto all = workings_of(relief, {.pressure = {0.0, 0.0}, .flow = {5 * litre, -5 * litre}});
  relief.press(0, result(all, "Δp", "pressure over it with the greatest flow"));
  relief.here.state[0] = result(all, "x");
  EXPECT_NEAR(relief.flow(0), 5 * litre, exact * litre);
  EXPECT_NEAR(relief.rate(), 0.0, 1e-6);  // 1/s, of a spool that takes 10 ms
  EXPECT_DOUBLE_EQ(result(all, "P"),
                   result(all, "Δp", "pressure over it with the greatest flow") * 5 * litre);
}

// Given that relief set to 150 bar with 4 L/min over it, then the calculation of its setting gives 150 bar
// back.
TEST(workings_of_a_relief, give_the_setting_back_at_the_flow_that_it_is_set_with) {
  OnePart relief("relief", {{"setting", 150e5}, {"setting_flow", 4 * litre}, {"rated_flow", 12 * litre}});
  EXPECT_NEAR(result(workings_of(relief, {}), "Δp", "pressure over it as it is set"), 150e5, 1e-6 * 150e5);
  OnePart piloted("pilot_operated_relief",
                  {{"setting", 150e5}, {"setting_flow", 4.5 * litre}, {"rated_flow", 40 * litre}});
  const auto all = workings_of(piloted, {.pressure = {1.0, 0.0, 0.0}, .flow = {5 * litre}});
  EXPECT_NEAR(result(all, "Δp", "pressure over it as it is set"), 150e5, 1e-6 * 150e5);
}

// The main stage at rest with a flow over it and its pilot: no oil gathers behind the poppet.
TEST(workings_of_a_pilot_operated_relief, are_a_state_of_rest_of_both_its_stages) {
  OnePart relief("pilot_operated_relief", {{"setting", 150e5}, {"rated_flow", 40 * litre}});
  const auto all = workings_of(relief, {.pressure = {1.0, 0.0, 0.0}, .flow = {20 * litre}});
  const Working& over = workshop::working(all, "Δp", "pressure over it with the greatest flow");
  relief.press(0, over.result.value);
  for (const Term& term : over.terms) {
    if (term.symbol == "p_X") relief.press(2, term.value);
    if (term.symbol == "x") relief.here.state[0] = term.value;
  }
  // The oil behind the poppet is a little less dense, so that of 0.5 L/min a thousandth is not balanced.
  EXPECT_NEAR(relief.flow(2), 0.0, 1e-3 * litre);
  EXPECT_NEAR(relief.rate(), 0.0, 1e-4);  // 1/s, of a stage that takes 25 ms
  EXPECT_NEAR(relief.flow(0), 20 * litre, exact * 20 * litre);
}

// Given a pump of 4 L/min that is dead-headed under a relief; when the machine has come to rest, then its
// line stands at the pressure that the relief's calculation gives for the flow that goes over it.
TEST(workings_of_a_relief, give_the_pressure_of_a_dead_headed_line) {
  workshop::Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 5 * si::litre}});
  b.part("P1", "pump", {{"flow", 4 * litre}, {"rated_pressure", 250e5}, {"running", 1.0}});
  b.part("V1", "relief", {{"setting", 150e5}, {"rated_flow", 12 * litre}});
  b.join({"T1.T", "P1.S", "V1.T"});
  b.join({"P1.P", "V1.P"});
  b.step("dead-headed", 2.0);
  const Trace trace = b.run({"V1.P.pressure", "V1.P.flow", "V1.T.pressure"});
  const double pressure = workshop::last(trace, "V1.P.pressure"), flow = workshop::last(trace, "V1.P.flow");
  const auto all =
      find_kind("relief")->workings(b.values("V1"), Oil{OilData{}},
                                    workshop::duty_of({.pressure = {pressure, 0.0}, .flow = {flow, -flow}}));
  ASSERT_GT(flow, 3 * litre);
  EXPECT_NEAR(result(all, "Δp", "pressure over it with the greatest flow"), pressure, 1e-4 * pressure);
}

struct Passed {
  OnePart part;
  double flow;  ///< into the first port
  double state = 0.0;
};

// Given parts with one way through them; when the pressure is found at which they pass a flow to an empty
// outlet, then it is the drop that they write down for this flow.
TEST(workings_of_restrictions, give_the_drop_at_which_the_law_passes_the_flow) {
  const std::vector<Passed> all{
      {{"check", {{"rated_flow", 12 * litre}, {"pressure_drop", 5e5}}}, 10 * litre},
      {{"check", {{"rated_flow", 12 * litre}, {"pressure_drop", 5e5}, {"cracking_pressure", 1e5}}},
       2 * litre},
      {{"check", {{"rated_flow", 12 * litre}, {"measured_viscosity", 20e-6}}}, 10 * litre},
      {{"needle", {{"bore", 3e-3}, {"turns", 2.0}}}, 3 * litre},
      {{"snubber", {{"bore", 0.5e-3}}}, 0.2 * litre},
      {{"capillary", {{"bore", 1e-3}, {"length", 0.5}}}, 0.5 * litre},
      {{"fitting", {{"bore", 6e-3}}}, 12 * litre},
      {{"hose", {{"bore", 6e-3}, {"length", 3.0}, {"fittings", 4.0}}}, 5 * litre},
      {{"hose", {{"bore", 6e-3}, {"length", 3.0}, {"fittings", 4.0}}}, 60 * litre},
      {{"tube", {{"bore", 8e-3}, {"length", 5.0}}}, 80 * litre},
      {{"filter", {{"rated_flow", 30 * litre}, {"pressure_drop", 1e5}}}, 20 * litre},
      {{"cooler", {{"rated_flow", 30 * litre}, {"conductance", 50.0}}}, 20 * litre},
      {{"quick_coupling", {{"rated_flow", 30 * litre}}}, 20 * litre},
      {{"shut_off", {{"rated_flow", 30 * litre}}}, 20 * litre},
      {{"unloading_valve", {{"rated_flow", 30 * litre}, {"setting", 70e5}}}, 20 * litre, 1.0},
      {{"sequence", {{"rated_flow", 30 * litre}, {"setting", 70e5}}}, 20 * litre, 1.0},
      {{"reducing", {{"rated_flow", 30 * litre}, {"setting", 70e5}}}, 20 * litre, 1.0},
      {{"counterbalance", {{"rated_flow", 30 * litre}, {"setting", 70e5}, {"ratio", 3.0}}}, 20 * litre, 1.0},
  };
  // Tables of pipes are within 1e-6 of the law; a check in the middle of its band is away from the rounded
  // corners that its calculation leaves sharp.
  constexpr double close = 3e-6;
  for (const Passed& passed : all) {
    OnePart part = passed.part;
    part.here.state[0] = passed.state;
    const double drop = part.drop_for(passed.flow);
    workshop::Steady steady{.flow{passed.flow}};
    for (int i = 0; i < part.kind().oil_ports; ++i) steady.pressure.push_back(i == 0 ? drop : 0.0);
    EXPECT_NEAR(result(workings_of(part, steady), "Δp"), drop, close * drop) << part.kind().about.kind;
  }
}

// Backwards through a one-way flow control the needle alone passes oil. Its flow is told at A, where the oil
// has swelled; the drop goes with its square.
TEST(workings_of_restrictions, give_the_metered_drop_of_a_one_way_flow_control) {
  OnePart control("one_way_flow_control", {{"bore", 3e-3}, {"turns", 2.0}, {"rated_flow", 20 * litre}});
  const double drop = control.drop_for(3 * litre, 1, 0), swelled = -control.flow(0) / (3 * litre);
  const auto all = workings_of(control, {.pressure = {0.0, drop}, .flow = {-3 * litre * swelled}});
  EXPECT_GT(swelled, 1.0);
  EXPECT_LT(swelled, 1.01);
  EXPECT_GT(result(all, "Δp", "drop from B to A"), drop);
  EXPECT_LT(result(all, "Δp", "drop from B to A"), drop * swelled * swelled);
}

// A needle that steps have opened further took less than it would have as it was set: nothing is said of it.
TEST(workings_of_restrictions, leave_out_a_needle_that_cannot_have_stood_as_it_was_set) {
  OnePart needle("needle", {{"bore", 3e-3}, {"turns", 0.25}});
  const auto all = workings_of(needle, {.pressure = {5e5, 0.0}, .flow = {10 * litre}});
  EXPECT_THROW(result(all, "Δp"), std::runtime_error);
  EXPECT_NO_THROW(result(all, "A"));
}

// A pilot-operated check of ratio 4 that holds 200 bar: (200 + 2)/4 = 50.5 bar open it (force balance).
TEST(workings_of_a_pilot_operated_check, give_the_pilot_pressure_at_which_it_begins_to_let_go) {
  OnePart check("pilot_operated_check",
                {{"ratio", 4.0}, {"cracking_pressure", 2e5}, {"rated_flow", 12 * litre}});
  check.press(1, 200e5);
  const double needed = result(workings_of(check, {.pressure = {0.0, 200e5, 0.0}}), "p_X");
  EXPECT_NEAR(needed, 50.5e5, exact * needed);
  check.press(2, needed - 0.05e5);
  EXPECT_EQ(check.flow(1), 0.0);
  check.press(2, needed + 0.05e5);
  EXPECT_GT(check.flow(1), 0.0);
}

// Given a counterbalance valve set to 260 bar that holds 200 bar, ratio 3: (260 − 200)/3 = 20 bar lower it.
TEST(workings_of_a_counterbalance, give_the_pilot_pressure_at_which_it_begins_to_lower) {
  OnePart valve("counterbalance", {{"setting", 260e5}, {"ratio", 3.0}, {"rated_flow", 12 * litre}});
  const auto all = workings_of(valve, {.pressure = {200e5, 0.0, 0.0, 0.0}});
  const double needed = result(all, "p_X", "pilot pressure that begins to lower");
  EXPECT_NEAR(needed, 20e5, exact * needed);
  EXPECT_NEAR(result(all, "r"), 1.3, exact);
  valve.press(0, 200e5);
  valve.press(2, needed - 0.1e5);
  EXPECT_EQ(valve.rate(), 0.0);
  valve.press(2, needed + 0.1e5);
  EXPECT_GT(valve.rate(), 0.0);
}

// The fuse's plate stands at the drop that it trips at while its flow in this oil goes through.
TEST(workings_of_a_hose_burst_valve, give_the_flow_at_which_it_trips_in_thicker_oil) {
  OnePart fuse("hose_burst_valve",
               {{"trip_flow", 20 * litre}, {"rated_flow", 15 * litre}, {"measured_viscosity", 20e-6}});
  const double trips_at = result(workings_of(fuse, {}), "Q_t");
  EXPECT_LT(trips_at, 20 * litre);  // 46 mm2/s against 20
  EXPECT_NEAR(fuse.drop_for(trips_at), fuse.report(0), 1e-6 * fuse.report(0));
}

// Two equal gears, one outlet without pressure: the other stands at twice the inlet and the shaft at rest.
TEST(workings_of_a_gear_flow_divider, give_the_pressure_that_an_outlet_is_driven_up_to) {
  OnePart divider("gear_flow_divider", {{"rated_flow", 20 * litre}, {"friction", 0.0}}, {},
                  {{"sections", {{5e-6, 0.0}, {5e-6, 0.0}}}});
  const auto all = workings_of(divider, {.pressure = {100e5, 0.0, 0.0, 0.0, 0.0}, .flow = {10 * litre}});
  EXPECT_NEAR(result(all, "p_A"), 200e5, exact * 200e5);
  divider.press(0, 100e5);
  divider.press(1, result(all, "p_A"));
  EXPECT_NEAR(divider.report(0), 0.0, 1e-3);  // rev/s, where 33 go with 20 L/min
}

// The wall's stress is that of the tube's own output, the allowed pressure too, by each of the three rules.
TEST(workings_of_a_tube, give_the_stress_and_the_allowed_pressure_of_its_outputs) {
  for (double rule : {0.0, 1.0, 2.0}) {
    OnePart tube("tube", {{"bore", 8e-3}, {"wall", 1.5e-3}, {"length", 2.0}, {"wall_rule", rule}});
    tube.press(0, 300e5);
    tube.press(1, 300e5);
    const auto all = workings_of(tube, {.pressure = {300e5, 300e5}});
    EXPECT_NEAR(result(all, "σ"), tube.report(2), exact * tube.report(2));
    EXPECT_NEAR(result(all, "p_w"), tube.report(3), exact * tube.report(3));
  }
}

// Where the bypass cracks with the share that it is said dirt may close, the law's element takes its
// pressure.
TEST(workings_of_a_filter, give_how_much_dirt_opens_its_bypass) {
  OnePart filter("filter", {{"rated_flow", 30 * litre}, {"pressure_drop", 1e5}, {"bypass_pressure", 2e5}});
  const double share = result(workings_of(filter, {.flow = {20 * litre}}), "c");
  filter.set("clogging", share);
  filter.set("bypass_pressure", std::nan(""));
  EXPECT_NEAR(filter.drop_for(20 * litre), 2e5, 1e-6 * 2e5);
}

}  // namespace
}  // namespace poise
