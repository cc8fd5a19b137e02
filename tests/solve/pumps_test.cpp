// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Pumps of every kind against what their datasheets and the trade say of them. 0.1 % is the bar.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "parts/laws.hpp"
#include "parts/monotone_curve.hpp"
#include "support/trade.hpp"

namespace poise {
namespace {

using namespace workshop;

constexpr double closed_form = 1e-3;
constexpr double lpm = si::litre_per_minute;
constexpr double inch = 0.0254, psi = 6894.757, gpm = 231 * inch * inch * inch / 60.0, hp = 745.6999;

#define EXPECT_CLOSE(found, expected) EXPECT_NEAR(found, expected, closed_form* std::abs(expected))

/// A reservoir, P1 of a kind, a hose, and a relief that holds the pressure within a hundredth of its setting.
Bench pump_over_relief(std::string_view kind, Bench::Numbers numbers, double held) {
  Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 20 * si::litre}});
  b.part("P1", kind, numbers);
  b.part("H1", "hose", {{"bore", 10 * si::mm}, {"length", 1.0}});
  b.part("V1", "relief", {{"setting", held}, {"override", 0.01}, {"rated_flow", 200 * lpm}});
  b.join({"T1.T", "P1.S", "V1.T"});
  b.join({"P1.P", "H1.A"});
  b.join({"H1.B", "V1.P"});
  return b;
}

struct Duty {
  double pressure, delivery, power, load;
};

Duty duty_of(const Bench& b) {
  const Trace t = b.run({"P1.P.pressure", "P1.delivery", "P1.shaft_power", "P1.motor_load"});
  expect_closed_books(t);
  return {last(t, "P1.P.pressure"), last(t, "P1.delivery"), last(t, "P1.shaft_power"),
          last(t, "P1.motor_load")};
}

Duty running_at(std::string_view kind, Bench::Numbers numbers, double held) {
  Bench b = pump_over_relief(kind, numbers, held);
  b.step("run", 3.0, {{"P1", "running", 1.0}});
  return duty_of(b);
}

// A fixed pump by its delivery curve: what the relief lets off at its pressure is what the curve says there.
TEST(pump, delivers_what_its_curve_says_at_the_pressure_it_works_against) {
  const Points sheet{{0.0, 4.0 * lpm}, {100 * si::bar, 3.9 * lpm}, {250 * si::bar, 3.6 * lpm}};
  for (double held : {50 * si::bar, 100 * si::bar, 200 * si::bar}) {
    Bench b = pump_over_relief("pump", {{"rated_pressure", 250 * si::bar}, {"motor_power", 2200.0}}, held);
    b.points("P1", "delivery_curve", sheet);
    b.step("run", 3.0, {{"P1", "running", 1.0}});
    const Duty found = duty_of(b);
    EXPECT_CLOSE(found.delivery, MonotoneCurve(sheet).look(found.pressure).value);
    EXPECT_CLOSE(found.power, 4.0 * lpm * found.pressure);
    EXPECT_CLOSE(found.load, found.power / 2200.0);
  }
}

// PU-12 (Esposito, Fluid Power with Applications, 6th ed., example 5-8): 5 in3/rev at 1000 rpm and 1000 psi,
// 20 gpm and 900 in·lbf: 81.7 % over all. Given the two efficiencies the pump must show that shaft power.
TEST(pump, takes_the_shaft_power_of_its_two_efficiencies) {
  const double displacement = 5 * inch * inch * inch, speed = 1000.0 / 60, pressure = 1000 * psi;
  const double volumetric = 20 * gpm / (displacement * speed);
  const double torque = 900 * 4.448222 * inch, ideal = pressure * displacement / (2 * std::numbers::pi);
  const Duty found = running_at("pump",
                                {{"displacement", displacement},
                                 {"speed", speed},
                                 {"volumetric_efficiency", volumetric},
                                 {"mechanical_efficiency", ideal / torque},
                                 {"rated_pressure", pressure}},
                                pressure);
  const double scale = found.pressure / pressure;  // the relief holds it within a hundredth
  EXPECT_CLOSE(found.power, torque * 2 * std::numbers::pi * speed * scale);
  EXPECT_CLOSE(found.delivery * found.pressure / found.power,
               (1 - (1 - volumetric) * scale) * ideal / torque);
  EXPECT_CLOSE(volumetric * ideal / torque, 0.8169954);  // the printed example, at its own pressure
}

// Common practice: wear shows in what is left of the flow under pressure, not at no load.
TEST(pump, worn_delivers_less_the_higher_the_pressure) {
  const auto flow = [](double wear, double held) {
    return running_at("pump",
                      {{"flow", 4 * lpm},
                       {"volumetric_efficiency", 0.95},
                       {"wear", wear},
                       {"rated_pressure", 200 * si::bar}},
                      held);
  };
  const Duty low = flow(0.4, 5 * si::bar), high = flow(0.4, 200 * si::bar);
  EXPECT_CLOSE(low.delivery, 4 * lpm * (1 - 0.45 * low.pressure / (200 * si::bar)));
  EXPECT_CLOSE(high.delivery, 4 * lpm * (1 - 0.45 * high.pressure / (200 * si::bar)));
  EXPECT_GT(low.delivery, 0.98 * 4 * lpm);
  EXPECT_LT(high.delivery, 0.56 * 4 * lpm);
}

Duty two_stage_at(double held) {
  return running_at("two_stage_pump",
                    {{"low_pressure_flow", 6 * lpm},
                     {"high_pressure_flow", 1 * lpm},
                     {"unloading_pressure", 70 * si::bar},
                     {"volumetric_efficiency", 1.0},
                     {"low_stage_efficiency", 1.0},
                     {"rated_pressure", 700 * si::bar},
                     {"motor_power", 1500.0}},
                    held);
}

// Trade rule "motor power": the two duties of a two-stage pump are just below unloading with both stages, and
// at the top pressure; the unloaded stage idles at 3 bar.
TEST(two_stage_pump, delivers_both_stages_below_its_unloading_pressure_and_one_above) {
  const Duty below = two_stage_at(60 * si::bar), above = two_stage_at(300 * si::bar);
  EXPECT_CLOSE(below.delivery, 6 * lpm);
  EXPECT_CLOSE(below.power, 6 * lpm * below.pressure / 0.9);
  EXPECT_CLOSE(above.delivery, 1 * lpm);
  EXPECT_CLOSE(above.power, (1 * lpm * above.pressure + 5 * lpm * 3 * si::bar) / 0.9);
  EXPECT_CLOSE(above.load, above.power / 1500.0);
}

// Trade rule "second-stage surprise": the same stroke under a load above the change-over takes the ratio of
// the flows longer. Speed = Q·ρ_suction/(ρ·A).
TEST(two_stage_pump, moves_a_load_above_the_change_over_by_its_high_stage_alone) {
  const double bore = 50 * si::mm;
  const auto speed_under = [&](double pressure) {
    Bench b = pump_over_relief("two_stage_pump",
                               {{"low_pressure_flow", 6 * lpm},
                                {"high_pressure_flow", 1 * lpm},
                                {"volumetric_efficiency", 1.0},
                                {"low_stage_efficiency", 1.0},
                                {"rated_pressure", 700 * si::bar}},
                               600 * si::bar);
    b.part("C1", "single_acting_cylinder",
           {{"bore", bore}, {"stroke", 1.0}, {"friction", 0.0}, {"seal_friction", 0.0}, {"damping", 100.0}});
    b.part("F1", "force", {{"force", pressure * circle(bore)}});
    b.join({"H1.B", "C1.A"});
    b.join({"C1.rod", "F1.rod"});
    b.step("out", 3.0, {{"P1", "running", 1.0}});
    const Trace t = b.run({"C1.speed", "C1.A.pressure"});
    expect_closed_books(t);
    EXPECT_NEAR(last(t, "C1.A.pressure"), pressure, 0.01 * pressure);
    return last(t, "C1.speed") * Oil{OilData{}}.density(last(t, "C1.A.pressure")).value;
  };
  const double light = speed_under(40 * si::bar), heavy = speed_under(200 * si::bar);
  EXPECT_CLOSE(heavy, 1 * lpm * Oil{OilData{}}.density_at_zero() / circle(bore));
  EXPECT_CLOSE(light, 6.0 * heavy);
}

TEST(two_stage_pump, says_when_it_unloads_and_holds_what_stands_behind_it_when_it_stops) {
  Bench b = pump_over_relief(
      "two_stage_pump",
      {{"low_pressure_flow", 6 * lpm}, {"high_pressure_flow", 1 * lpm}, {"rated_pressure", 700 * si::bar}},
      400 * si::bar);
  b.step("press", 3.0, {{"P1", "running", 1.0}});
  b.step("off", 60.0, {{"P1", "running", 0.0}});
  const Trace t = b.run({"P1.P.pressure", "P1.P.flow"});
  expect_closed_books(t);
  const auto said = std::ranges::count_if(t.events, [](const Event& e) {
    return e.sentence.find("unloads its low-pressure stage") != std::string::npos;
  });
  EXPECT_EQ(said, 1);
  EXPECT_EQ(last(t, "P1.P.flow"), 0.0);
  EXPECT_GT(last(t, "P1.P.pressure"), 0.98 * 400 * si::bar);
}

TEST(two_stage_pump, can_be_given_as_the_curve_of_the_whole_pump) {
  const Points sheet{
      {0.0, 6 * lpm}, {60 * si::bar, 5.6 * lpm}, {80 * si::bar, 1.1 * lpm}, {700 * si::bar, 0.9 * lpm}};
  for (double held : {30 * si::bar, 70 * si::bar, 400 * si::bar}) {
    Bench b = pump_over_relief("two_stage_pump", {{"rated_pressure", 700 * si::bar}}, held);
    b.points("P1", "delivery_curve", sheet);
    b.step("run", 3.0, {{"P1", "running", 1.0}});
    const Duty found = duty_of(b);
    EXPECT_CLOSE(found.delivery, MonotoneCurve(sheet).look(found.pressure).value);
    EXPECT_CLOSE(found.power, found.delivery * found.pressure / (0.9 * 0.9));
  }
}

// Stall: balance of the pistons, ratio times the air pressure. Trade rule "air pump stall"; a job must come
// to a stand there, follow the regulator up, and keep its pressure when the air is shut off.
TEST(air_driven_pump, stalls_at_ratio_times_its_air_pressure_and_holds) {
  Bench b;
  b.part("T1", "reservoir", {{"usable_oil", 5 * si::litre}});
  b.part("P1", "air_driven_pump", {{"ratio", 60.0}, {"flow", 1 * lpm}});
  b.part("G1", "gauge", {{"range", 600 * si::bar}, {"port_volume", 20 * si::cm3}});
  b.join({"T1.T", "P1.S"});
  b.join({"P1.P", "G1.M"});
  b.step("5 bar", 10.0, {{"P1", "air_pressure", 5 * si::bar}});
  b.step("6 bar", 10.0, {{"P1", "air_pressure", 6 * si::bar}});
  b.step("air off", 60.0, {{"P1", "air_pressure", 0.0}});
  const Trace t = b.run({"G1.pressure", "P1.stall_pressure"});
  expect_closed_books(t);
  EXPECT_CLOSE(at(t, "G1.pressure", t.steps[0].end), 60 * 5 * si::bar);
  EXPECT_CLOSE(at(t, "G1.pressure", t.steps[1].end), 60 * 6 * si::bar);
  EXPECT_NEAR(last(t, "G1.pressure"), at(t, "G1.pressure", t.steps[1].end), 1e-5 * 360 * si::bar);
  EXPECT_EQ(last(t, "P1.stall_pressure"), 0.0);
}

Trace air_pump_run(Bench& b, double air) {
  b.step("run", 5.0, {{"P1", "air_pressure", air}});
  const Trace t = b.run({"P1.P.pressure", "P1.delivery", "P1.shaft_power", "P1.air_use"});
  expect_closed_books(t);
  return t;
}

// Half way to stall half of the flow is left; free air is delivery times ratio at the air's absolute
// pressure.
TEST(air_driven_pump, slows_along_a_straight_line_to_stall) {
  Bench b = pump_over_relief("air_driven_pump", {{"ratio", 60.0}, {"flow", 1 * lpm}}, 180 * si::bar);
  const Trace t = air_pump_run(b, 6 * si::bar);
  const double p = last(t, "P1.P.pressure"), flow = 1 * lpm * (1 - p / (360 * si::bar));
  EXPECT_CLOSE(last(t, "P1.delivery"), flow);
  EXPECT_CLOSE(last(t, "P1.shaft_power"), flow * p);
  EXPECT_CLOSE(last(t, "P1.air_use"), flow * 60 * (6e5 + 101325) / 101325);
}

// Trade fault F18: with less air it is slower and weaker; flow and pressure both go with the air.
TEST(air_driven_pump, follows_its_curve_with_flow_and_pressure_scaled_by_the_air) {
  const Points sheet{{0.0, 1.2 * lpm}, {100 * si::bar, 0.6 * lpm}, {300 * si::bar, 0.15 * lpm}};
  Points with_stall = sheet;
  with_stall.push_back({60 * 6 * si::bar, 0.0});
  for (double lost : {0.0, 1.5 * si::bar}) {
    Bench b = pump_over_relief("air_driven_pump", {{"ratio", 60.0}, {"air_line_drop", lost}}, 150 * si::bar);
    b.points("P1", "delivery_curve", sheet);
    const Trace t = air_pump_run(b, 6 * si::bar);
    const double a = (6 * si::bar - lost) / (6 * si::bar);
    EXPECT_CLOSE(last(t, "P1.delivery"),
                 a * MonotoneCurve(with_stall).look(last(t, "P1.P.pressure") / a).value);
  }
}

Bench compensated(Bench::Numbers numbers, double relief) {
  Bench b = pump_over_relief("variable_pump", numbers, relief);
  b.join({"T1.T", "P1.L"});
  b.step("run", 5.0, {{"P1", "running", 1.0}});
  return b;
}

// VL-05 (Esposito, example 5-5): a compensated pump that holds 1200 psi with 0.7 gpm of leakage, instead of
// dumping 20 gpm, saves p·(Q1 − Q2) = 13.5 hp. At rest s·Q1 = Q2 and p = setting − band·s.
TEST(variable_pump, holds_its_setting_with_no_more_than_its_leakage) {
  const double held = 1200 * psi, band = 10 * si::bar, rated = 3000 * psi;
  const Duty found = duty_of(compensated({{"flow", 20 * gpm},
                                          {"setting", held + band * 0.7 / 20},
                                          {"band", band},
                                          {"volumetric_efficiency", 1 - 0.7 / 20 * rated / held},
                                          {"mechanical_efficiency", 1.0},
                                          {"rated_pressure", rated}},
                                         2000 * psi));
  EXPECT_CLOSE(found.pressure, held);
  EXPECT_NEAR(found.delivery, 0.0, 1e-3 * 20 * gpm);
  EXPECT_CLOSE(20 * gpm * found.pressure - found.power, 13.51 * hp);
}

TEST(variable_pump, gives_its_full_flow_below_the_band) {
  const Duty found = duty_of(compensated({{"flow", 30 * lpm},
                                          {"setting", 200 * si::bar},
                                          {"volumetric_efficiency", 1.0},
                                          {"rated_pressure", 280 * si::bar}},
                                         150 * si::bar));
  EXPECT_CLOSE(found.delivery, 30 * lpm);
}

// Constant power: 5 kW at 150 bar are 20 L/min, whatever the pump could give. The rounded corner between the
// two controls takes less than a ten-thousandth there.
TEST(variable_pump, keeps_pressure_times_flow_at_its_power_limit) {
  for (double held : {150 * si::bar, 100 * si::bar}) {
    const Duty found = duty_of(compensated({{"flow", 40 * lpm},
                                            {"setting", 250 * si::bar},
                                            {"power_limit", 5000.0},
                                            {"volumetric_efficiency", 1.0},
                                            {"mechanical_efficiency", 1.0},
                                            {"rated_pressure", 280 * si::bar}},
                                           held));
    EXPECT_CLOSE(found.delivery * found.pressure, 5000.0);
    EXPECT_LE(found.power, 5000.0);
  }
}

}  // namespace
}  // namespace poise
