// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Unloading, sequence and reducing valves and how tight valves shut: each as a circuit or a law, with
// expected numbers from formulas. 0.1 % is the bar.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <utility>
#include <vector>

#include "parts/laws.hpp"
#include "support/trade.hpp"

namespace poise::workshop {
namespace {

constexpr double closed_form = 1e-3;
constexpr double litres = si::litre_per_minute;

#define EXPECT_CLOSE(found, expected) EXPECT_NEAR(found, expected, closed_form* std::abs(expected))

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
    const Laws laws = find_kind("sequence")->make(b.values("V1"), Oil{OilData{}});
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
      const Laws laws = find_kind(kind)->make(b.values("V1"), oil);
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
  EXPECT_EQ(find_kind("check")->check(b.values("V1")).size(), 1u);
}

}  // namespace
}  // namespace poise::workshop
