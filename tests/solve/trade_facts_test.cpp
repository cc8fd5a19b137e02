// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What everybody in the trade knows of pressure valves, as tests: limit, reduce, sequence, damp. Facts
// without a printed source are marked common practice; every expected number comes from a formula written
// here. 0.1 % is the bar.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "parts/laws.hpp"
#include "support/trade.hpp"

namespace poise {
namespace {

using namespace workshop;

constexpr double closed_form = 1e-3;

#define EXPECT_CLOSE(found, expected) EXPECT_NEAR(found, expected, closed_form* std::abs(expected))

// Common practice: a relief in the main line keeps the pressure below its setting plus its override, whatever
// the cylinder does. The main line is 5 m of 10 mm hose (0.39 L, walls give 0.05 cm3/bar): slow enough for a
// valve of 10 ms.
TEST(trade_fact, relief_in_the_main_line_limits_the_pressure_through_a_whole_cycle) {
  Bench b;
  const double flow = 4 * si::litre_per_minute;
  const ReliefData relief{.cracking = 180 * si::bar, .rated_flow = 12 * si::litre_per_minute};
  add_power_unit(b, flow, relief);
  b.part("H1", "hose", {{"bore", 10 * si::mm}, {"length", 5.0}});
  b.part("V2", "directional_4_3", {{"centre", 0.0}, {"rated_flow", 12 * si::litre_per_minute}});
  b.part("C1", "double_acting_cylinder", {{"bore", 40 * si::mm}, {"rod", 22 * si::mm}, {"stroke", 0.1}});
  b.part("F1", "force", {{"force", 5 * si::kN}});
  b.join({"P1.P", "H1.A"});
  b.join({"H1.B", "V2.P"});
  b.join({"V2.A", "C1.A"});
  b.join({"V2.B", "C1.B"});
  b.join({"V2.T", "T1.T"});
  b.join({"C1.rod", "F1.rod"});
  b.step("pump against the shut centre", 1.0, {{"P1", "running", 1.0}});
  b.step("out, and on against the end", 4.0, {{"V2", "position", 1.0, 0.05}});
  b.step("back, and on against the end", 4.0, {{"V2", "position", 2.0, 0.05}});
  b.step("shut", 1.0, {{"V2", "position", 0.0, 0.05}});
  const Trace t = b.run({"P1.P.pressure", "V2.P.pressure", "C1.A.pressure", "C1.position"});
  expect_closed_books(t);

  ASSERT_GT(highest(t, "C1.position"), 0.1);  // it met both ends
  ASSERT_LT(last(t, "C1.position"), 1e-4);
  const double limit = relief.cracking + relief.band();
  for (const char* at_port : {"P1.P.pressure", "V2.P.pressure", "C1.A.pressure"})
    EXPECT_LE(highest(t, at_port), limit);
  EXPECT_CLOSE(last(t, "P1.P.pressure"), relief_drop(relief, flow, Oil{OilData{}}));
}

// Common practice: a restricted tank line raises the limit by just its back pressure. The back pressure of a
// thin return hose is that of laminar flow, 128·μ·L·Q/(π·d⁴) (Hagen and Poiseuille).
TEST(trade_fact, restricted_tank_line_raises_the_limit_by_its_back_pressure) {
  const double flow = 5 * si::litre_per_minute, length = 8.0, bore = 4 * si::mm;
  const ReliefData relief{.cracking = 160 * si::bar, .rated_flow = 12 * si::litre_per_minute};
  const auto inlet_and_back = [&](double return_bore) {
    Bench b;
    b.part("T1", "reservoir", {{"usable_oil", 10 * si::litre}});
    b.part("P1", "pump", {{"flow", flow}, {"volumetric_efficiency", 1.0}, {"rated_pressure", 250 * si::bar}});
    b.part("V1", "relief", {{"setting", relief.cracking}, {"rated_flow", relief.rated_flow}});
    b.part("H1", "hose", {{"bore", 10 * si::mm}, {"length", 3.0}});
    b.part("H2", "hose", {{"bore", return_bore}, {"length", length}});
    b.join({"T1.T", "P1.S", "H2.B"});
    b.join({"P1.P", "H1.A"});
    b.join({"H1.B", "V1.P"});
    b.join({"V1.T", "H2.A"});
    b.step("run", 4.0, {{"P1", "running", 1.0}});
    const Trace t = b.run({"V1.P.pressure", "V1.T.pressure"});
    expect_closed_books(t);
    return std::array{last(t, "V1.P.pressure"), last(t, "V1.T.pressure")};
  };
  const auto [inlet, back] = inlet_and_back(bore);
  const auto [free_inlet, free_back] = inlet_and_back(25 * si::mm);

  const Oil oil{OilData{}};  // mass flow: what the pump draws at suction density
  const double resistance = 128.0 * oil.viscosity() * length / (std::numbers::pi * std::pow(bore, 4));
  const double expected_back = resistance * oil.density_at_zero() * flow;
  ASSERT_LT(4 * flow / (std::numbers::pi * bore * oil.viscosity()), 2000.0);  // laminar
  EXPECT_CLOSE(back, expected_back);
  EXPECT_CLOSE(inlet, expected_back + relief_drop(relief, flow, oil, expected_back));
  EXPECT_NEAR(inlet - free_inlet, back - free_back, closed_form * inlet);
}

// Common practice: a reducing valve gives two pressures at once, the main at the relief's level and the
// branch at its own setting, and the branch does not follow when the main rises.
TEST(trade_fact, reducing_valve_keeps_its_branch_while_the_main_rises) {
  Bench b;
  const double flow = 4 * si::litre_per_minute, setting = 80 * si::bar;
  const ReliefData high{.cracking = 200 * si::bar, .rated_flow = 12 * si::litre_per_minute};
  const ReliefData low{.cracking = 120 * si::bar, .rated_flow = 12 * si::litre_per_minute};
  add_power_unit(b, flow, high);
  b.part("H1", "hose", {{"bore", 10 * si::mm}, {"length", 5.0}});
  b.part("N1", "shut_off", {{"rated_flow", 40 * si::litre_per_minute}, {"pressure_drop", 0.5 * si::bar}});
  b.part("V2", "relief", {{"setting", low.cracking}, {"rated_flow", low.rated_flow}});
  b.part("V3", "reducing", {{"setting", setting}, {"rated_flow", 12 * si::litre_per_minute}});
  b.part("H2", "hose", {{"bore", 6 * si::mm}, {"length", 2.0}});
  b.part("C1", "single_acting_cylinder",
         {{"bore", 40 * si::mm}, {"stroke", 0.03}, {"spring_preload", 200.0}, {"spring_rate", 5000.0}});
  b.join({"P1.P", "H1.A"});
  b.join({"H1.B", "V3.P", "N1.A"});
  b.join({"N1.B", "V2.P"});
  b.join({"V2.T", "V3.T", "T1.T"});
  b.join({"V3.A", "H2.A"});
  b.join({"H2.B", "C1.A"});
  b.step("main at the lower relief", 6.0, {{"P1", "running", 1.0}});
  b.step("main at the higher relief", 6.0, {{"N1", "position", 0.0, 0.5}});
  const Trace t = b.run({"V3.P.pressure", "C1.A.pressure", "C1.position"});
  expect_closed_books(t);

  const Oil oil{OilData{}};
  ASSERT_GT(last(t, "C1.position"), 0.03);
  const double before = t.steps[0].end;
  EXPECT_CLOSE(at(t, "V3.P.pressure", before), relief_drop(low, flow, oil));
  EXPECT_CLOSE(last(t, "V3.P.pressure"), relief_drop(high, flow, oil));
  // Where it is shut: the setting, or up to the dead band above it, where the valve does not yet relieve (3
  // %).
  EXPECT_GE(at(t, "C1.A.pressure", before), setting * (1 - closed_form));
  EXPECT_LE(at(t, "C1.A.pressure", before), setting * 1.03);
  EXPECT_NEAR(last(t, "C1.A.pressure"), at(t, "C1.A.pressure", before), closed_form * setting);
  EXPECT_LE(highest(t, "C1.A.pressure"), setting * (1.0 + 0.03 + 0.05));  // relieving is fully open there
}

/// Two work supports, and behind a sequence valve two swing clamps, on one directional valve. Returns the
/// least capacity of the two supports at the moment the first clamp has moved by a millimetre, N.
double capacity_as_clamps_start(double sequence_setting) {
  Bench b;
  add_power_unit(b, 2 * si::litre_per_minute,
                 {.cracking = 200 * si::bar, .rated_flow = 8 * si::litre_per_minute});
  b.part("V2", "directional_4_2", {{"rated_flow", 12 * si::litre_per_minute}});
  b.part("H1", "hose", {{"bore", 6 * si::mm}, {"length", 2.0}});
  b.part("V3", "sequence", {{"setting", sequence_setting}, {"rated_flow", 8 * si::litre_per_minute}});
  for (const char* tag : {"S1", "S2"}) {
    b.part(
        tag, "work_support",
        {{"lock_pressure", 40 * si::bar}, {"capacity", 12 * si::kN}, {"capacity_pressure", 200 * si::bar}});
  }
  for (const char* tag : {"K1", "K2"}) {
    b.part(tag, "swing_clamp",
           {{"clamp_area", 3 * si::cm2},
            {"return", 1.0},
            {"unclamp_area", 5 * si::cm2},
            {"swing_stroke", 10 * si::mm},
            {"clamp_stroke", 10 * si::mm}});
  }
  b.join({"P1.P", "V2.P"});
  b.join({"V2.T", "V3.Y", "T1.T"});
  b.join({"V2.A", "H1.A"});
  b.join({"H1.B", "S1.A", "S2.A", "V3.A"});
  b.join({"V3.B", "K1.A", "K2.A"});
  b.join({"V2.B", "K1.B", "K2.B"});
  b.step("pump on, arms up", 1.0, {{"P1", "running", 1.0}});
  b.step("clamp", 5.0, {{"V2", "position", 1.0, 0.05}});
  b.step("unclamp", 4.0, {{"V2", "position", 0.0, 0.05}});
  const Trace t = b.run({"S1.capacity", "S2.capacity", "K1.position", "K2.position", "K1.clamp_force"});
  expect_closed_books(t);
  EXPECT_GT(highest(t, "K1.clamp_force"),
            3 * si::kN);                          // they came down: 200 bar on 3 cm2 less friction and spring
  EXPECT_LT(last(t, "K1.position"), 1 * si::mm);  // and went back by the same directional valve
  const double moved =
      std::min(first_above(t, "K1.position", 1 * si::mm), first_above(t, "K2.position", 1 * si::mm));
  return std::min(at(t, "S1.capacity", moved), at(t, "S2.capacity", moved));
}

// Common practice: with a sequence valve the clamps come down only after the supports have their pressure.
TEST(trade_fact, sequence_valve_brings_the_clamps_down_after_the_supports_are_firm) {
  const double capacity_per_pressure = 12 * si::kN / (160 * si::bar);
  const double setting = 120 * si::bar;
  // The valve opens only above its setting, and the supports stand at its inlet.
  EXPECT_GE(capacity_as_clamps_start(setting), (setting - 40 * si::bar) * capacity_per_pressure);
}

// Set below the pressure at which the supports lock, it opens too early: the clamps press on supports that do
// not hold.
TEST(trade_fact, sequence_valve_set_too_low_lets_the_clamps_go_first) {
  EXPECT_EQ(capacity_as_clamps_start(20 * si::bar), 0.0);
}

/// A first-order lag driven by a recorded signal, straight between rows: the exact answer row by row.
std::vector<double> lagged(const Trace& t, const char* signal, double lag) {
  const auto& u = t.values[t.column(signal)];
  std::vector<double> y{u.front()};
  for (std::size_t i = 1; i < u.size(); ++i) {
    const double dt = t.time[i] - t.time[i - 1];
    const double behind = dt > 0.0 ? lag * (u[i] - u[i - 1]) / dt : 0.0;
    y.push_back(u[i] - behind + (y.back() - u[i - 1] + behind) * std::exp(-dt / lag));
  }
  return y;
}

// Common practice: a needle before a gauge's small volume smooths its reading. A valve that opens and shuts a
// lower relief ten times a second makes the pressure jump. The gauge behind the needle follows as a
// first-order lag, T = resistance · give, with the needle's laminar law. Cold oil: 150 mm2/s.
TEST(trade_fact, needle_and_small_volume_damp_a_gauge) {
  Bench b;
  const double half_period = 0.05, hole = 2 * si::mm, opening = 0.016, range = 250 * si::bar,
               give = 0.2 * si::cm3;
  b.plan.oil.viscosity_40 = 150e-6;
  b.plan.oil.viscosity_100 = 15e-6;
  add_power_unit(b, 4 * si::litre_per_minute,
                 {.cracking = 100 * si::bar, .rated_flow = 8 * si::litre_per_minute});
  b.part("H1", "hose", {{"bore", 10 * si::mm}, {"length", 3.0}});
  b.part("V2", "directional_2_2",
         {{"rated_flow", 40 * si::litre_per_minute}, {"pressure_drop", 1 * si::bar}});
  b.part("V3", "relief", {{"setting", 90 * si::bar}, {"rated_flow", 8 * si::litre_per_minute}});
  b.part("G1", "gauge", {{"range", range}});
  b.part("N1", "needle", {{"bore", hole}, {"turns", 8.0 * opening}});
  b.part("G2", "gauge", {{"range", range}, {"give", give}, {"port_volume", 1 * si::cm3}});
  b.join({"P1.P", "H1.A"});
  b.join({"H1.B", "V2.P", "G1.M", "N1.A"});
  b.join({"V2.A", "V3.P"});
  b.join({"V3.T", "T1.T"});
  b.join({"N1.B", "G2.M"});
  b.step("start", 2.0, {{"P1", "running", 1.0}});
  const int halves = 30;
  for (int i = 0; i < halves; ++i)
    b.step("jump", half_period, {{"V2", "position", i % 2 == 0 ? 1.0 : 0.0, 0.005}});
  const Trace t = b.run({"G1.reading", "G2.reading"});
  expect_closed_books(t);

  const auto swing_of = [&](const std::vector<double>& reading) {  // over the last whole period
    double low = reading.back(), high = low;
    for (std::size_t i = 0; i < t.time.size(); ++i) {
      if (t.time[i] < t.time.back() - 2 * half_period) continue;
      low = std::min(low, reading[i]);
      high = std::max(high, reading[i]);
    }
    return high - low;
  };
  const auto& bare = t.values[t.column("G1.reading")];
  const auto& damped = t.values[t.column("G2.reading")];

  const Oil oil{b.plan.oil};
  const double p = damped.back(), area = circle(hole);
  const double turbulent =
      oil.density(p).value / (2 * 0.62 * 0.62 * area * area);       // a of Δp = (a·Q² + b·Q)/x²
  const double laminar_flow = 100 * oil.viscosity() * area / hole;  // Q_t = b/a at Re = 100
  const double resistance = turbulent * laminar_flow / (opening * opening);
  const double wall = give / range, volume = 2 * si::cm3 + wall * p;  // gauge and needle's port
  const double lag = resistance * (volume / oil.effective_modulus(p) + wall);
  const double not_laminar = swing_of(bare) / resistance / laminar_flow;  // a·Q²/(b·Q) at most
  ASSERT_LT(not_laminar, 0.01);
  ASSERT_GT(swing_of(bare), 8 * si::bar);

  EXPECT_LT(swing_of(damped), 0.4 * swing_of(bare));
  const double expected = swing_of(lagged(t, "G1.reading", lag));
  EXPECT_NEAR(swing_of(damped), expected, (closed_form + not_laminar) * expected);
}

}  // namespace
}  // namespace poise
