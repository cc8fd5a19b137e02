// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Calculations of pumps.
#include <cmath>

#include "parts/air_driven_pump.hpp"
#include "parts/hand_pump.hpp"
#include "parts/pump.hpp"
#include "parts/two_stage_pump.hpp"
#include "parts/variable_pump.hpp"
#include "parts/worked.hpp"

namespace poise {
namespace {

using Q = Quantity;
using worked::above_zero;
using worked::add;
using worked::Seen;

constexpr const char* slip_law = "common form, e.g. Merritt, Hydraulic Control Systems (from memory)";
constexpr const char* shaft_law = "power of a flow over the mechanical efficiency (closed form)";

/// Displacement times speed, where these are given.
void add_displacement(std::vector<Working>& all, const Values& v) {
  add(all, {.name = "delivery without load",
            .formula = "Q_0 = V·n",
            .terms = {{"V", "displacement", v["displacement"], Q::displacement},
                      {"n", "shaft speed", v["speed"], Q::rotation}},
            .result = {"Q_0", "delivery without load", v["displacement"] * v["speed"], Q::flow},
            .source = "continuity"});
}

/// What is left of a flow when the share 1 − η + w of it slips back at the rated pressure.
void add_delivery(std::vector<Working>& all, const Values& v, double no_load, double pressure,
                  const std::string& name, const std::string& meaning) {
  const double slip = 1.0 - v["volumetric_efficiency"] + v["wear"];
  add(all,
      {.name = name,
       .formula = "Q = Q_0·(1 − (1 − η_v + w)·p/p_r)",
       .terms = {{"Q_0", "delivery without load", no_load, Q::flow},
                 {"η_v", "volumetric efficiency at the rated pressure", v["volumetric_efficiency"], Q::share},
                 {"w", "wear", v["wear"], Q::share},
                 {"p", meaning, pressure, Q::pressure},
                 {"p_r", "rated pressure", v["rated_pressure"], Q::pressure}},
       .result = {"Q", "delivery", above_zero(no_load * (1.0 - slip * pressure / v["rated_pressure"])),
                  Q::flow},
       .source = slip_law});
}

void add_load(std::vector<Working>& all, const Values& v, double power) {
  add(all, {.name = "load of its motor",
            .formula = "r = P/P_m",
            .terms = {{"P", "power at the shaft", power, Q::power},
                      {"P_m", "rated power of the motor", v["motor_power"], Q::power}},
            .result = {"r", "share of the rated power", power / v["motor_power"], Q::share},
            .source = "definition"});
}

}  // namespace

std::vector<Working> Pump::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const Pump pump(v, oil);
  const double p = Seen(duty).highest(1);
  if (!v.given("flow") && !v.given("delivery_curve")) add_displacement(all, v);
  if (!v.given("delivery_curve")) {
    add_delivery(all, v, pump.full_flow, p, "delivery at the highest pressure, suction without pressure",
                 "highest pressure at P");
  }
  const double power = pump.full_flow * p / pump.mechanical;
  add(all, {.name = "power at its shaft at the highest pressure, suction without pressure",
            .formula = "P = Q_0·p/η_m",
            .terms = {{"Q_0", "delivery without load", pump.full_flow, Q::flow},
                      {"p", "highest pressure at P", p, Q::pressure},
                      {"η_m", "mechanical efficiency", pump.mechanical, Q::share}},
            .result = {"P", "power at the shaft", power, Q::power},
            .source = shaft_law});
  add_load(all, v, power);
  return all;
}

namespace {

/// Both stages together just below the change-over, which is where their motor has most to do at first.
void add_both_stages(std::vector<Working>& all, const Values& v, const TwoStagePump& pump) {
  const double p = v["unloading_pressure"] * (1.0 - 0.5 * v["unloading_band"]);
  add(all, {.name = "power at its shaft with both stages, as the low-pressure stage begins to unload",
            .formula = "P_1 = Q_1·p_u·(1 − b/2)/η_m",
            .terms = {{"Q_1", "delivery of both stages without load", v["low_pressure_flow"], Q::flow},
                      {"p_u", "unloading pressure", v["unloading_pressure"], Q::pressure},
                      {"b", "unloading band as a share of it", v["unloading_band"], Q::share},
                      {"η_m", "mechanical efficiency", pump.mechanical, Q::share}},
            .result = {"P_1", "power at the shaft", v["low_pressure_flow"] * p / pump.mechanical, Q::power},
            .source = shaft_law});
}

void add_high_stage(std::vector<Working>& all, const Values& v, const TwoStagePump& pump, double p) {
  const double most = v["low_pressure_flow"];
  if (!(p > v["unloading_pressure"] * (1.0 + 0.5 * v["unloading_band"]))) return;
  add_delivery(all, v, pump.high, p,
               "delivery of the high-pressure stage at the highest pressure, suction without pressure",
               "highest pressure at P");
  const double power = (pump.high * p + (most - pump.high) * pump.idling) / pump.mechanical;
  add(all, {.name = "power at its shaft at the highest pressure, suction without pressure",
            .formula = "P = (Q_0·p + (Q_1 − Q_0)·p_i)/η_m",
            .terms = {{"Q_0", "delivery of the high-pressure stage without load", pump.high, Q::flow},
                      {"p", "highest pressure at P", p, Q::pressure},
                      {"Q_1", "delivery of both stages without load", most, Q::flow},
                      {"p_i", "pressure that the unloaded stage idles at", pump.idling, Q::pressure},
                      {"η_m", "mechanical efficiency", pump.mechanical, Q::share}},
            .result = {"P", "power at the shaft", power, Q::power},
            .source = shaft_law});
  add_load(all, v, power);
}

}  // namespace

std::vector<Working> TwoStagePump::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const TwoStagePump pump(v, oil);
  const double p = Seen(duty).highest(1);
  if (!v.given("delivery_curve")) {
    add_both_stages(all, v, pump);
    add_high_stage(all, v, pump, p);
    return all;
  }
  const double flow = std::isfinite(p) ? above_zero(pump.curve.look(p).value) : p;
  const double power = flow * p / (pump.mechanical * pump.efficiency);
  add(all, {.name = "power at its shaft at the highest pressure, suction without pressure",
            .formula = "P = Q·p/(η_m·η_v)",
            .terms = {{"Q", "delivery at this pressure, by its curve", flow, Q::flow},
                      {"p", "highest pressure at P", p, Q::pressure},
                      {"η_m", "mechanical efficiency", pump.mechanical, Q::share},
                      {"η_v", "volumetric efficiency", pump.efficiency, Q::share}},
            .result = {"P", "power at the shaft", power, Q::power},
            .source = shaft_law});
  add_load(all, v, power);
  return all;
}

std::vector<Working> VariablePump::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const VariablePump pump(v, oil);
  if (!v.given("flow")) add_displacement(all, v);
  const double knee = pump.setting - pump.band, whole = pump.full * knee;
  const bool limited = pump.power_limit > 0.0 && pump.power_limit < whole;
  if (!limited) {
    add_delivery(all, v, pump.full, knee,
                 "delivery as its compensator begins to act, suction and case without pressure",
                 "setting less band");
  }
  const double power = (limited ? pump.power_limit : whole) / pump.mechanical;
  if (limited) {
    add(all, {.name = "greatest power at its shaft, held by its power limit",
              .formula = "P = P_l/η_m",
              .terms = {{"P_l", "power limit", pump.power_limit, Q::power},
                        {"η_m", "mechanical efficiency", pump.mechanical, Q::share}},
              .result = {"P", "power at the shaft", power, Q::power},
              .source = shaft_law});
  } else {
    add(all,
        {.name = "greatest power at its shaft, as its compensator begins to act, suction without pressure",
         .formula = "P = Q_0·(p_s − b)/η_m",
         .terms = {{"Q_0", "delivery without load", pump.full, Q::flow},
                   {"p_s", "setting", pump.setting, Q::pressure},
                   {"b", "band below the setting", pump.band, Q::pressure},
                   {"η_m", "mechanical efficiency", pump.mechanical, Q::share}},
         .result = {"P", "power at the shaft", power, Q::power},
         .source = shaft_law});
  }
  add_load(all, v, power);
  const double p = Seen(duty).highest(1);
  add(all,
      {.name = "case drain at the highest pressure, case without pressure",
       .formula = "Q_L = Q_0·(1 − η_v + w)·p/p_r",
       .terms = {{"Q_0", "delivery without load", pump.full, Q::flow},
                 {"η_v", "volumetric efficiency at the rated pressure", v["volumetric_efficiency"], Q::share},
                 {"w", "wear", v["wear"], Q::share},
                 {"p", "highest pressure at P", p, Q::pressure},
                 {"p_r", "rated pressure", v["rated_pressure"], Q::pressure}},
       .result = {"Q_L", "flow of the case drain", pump.slip * p, Q::flow},
       .source = slip_law});
  return all;
}

std::vector<Working> AirDrivenPump::workings(const Values& v, const Oil&, const Duty& duty) {
  std::vector<Working> all;
  const double ratio = v["ratio"], stated = v["stated_air_pressure"], lost = v["air_line_drop"];
  const double p = Seen(duty).highest(1);
  add(all, {.name = "pressure at which it stalls with the stated air pressure at its regulator",
            .formula = "p_st = i·(p_s − Δp_a)",
            .terms = {{"i", "ratio of areas", ratio, Q::none},
                      {"p_s", "stated air pressure", stated, Q::pressure},
                      {"Δp_a", "lost on the way from the regulator", lost, Q::pressure}},
            .result = {"p_st", "stall pressure", above_zero(ratio * (stated - lost)), Q::pressure},
            .source = "balance of the two pistons"});
  add(all, {.name = "air pressure at the regulator that just holds the highest pressure",
            .formula = "p_a = p_P/i + Δp_a",
            .terms = {{"p_P", "highest pressure at P", p, Q::pressure},
                      {"i", "ratio of areas", ratio, Q::none},
                      {"Δp_a", "lost on the way from the regulator", lost, Q::pressure}},
            .result = {"p_a", "air pressure", p / ratio + lost, Q::pressure},
            .source = "balance of the two pistons"});
  if (v.given("delivery_curve")) return all;
  constexpr double rounded_below = 0.02;  // of the delivery without load: there the law bends to zero
  const double free = v["flow"] * (stated - lost) / stated;
  const double left = free - v["flow"] * (1.0 + v["wear"]) * p / (ratio * stated);
  if (!(left > rounded_below * free)) return all;
  add(all, {.name = "delivery at the highest pressure with the stated air pressure, suction without pressure",
            .formula = "Q = Q_0·((p_s − Δp_a)/p_s − (1 + w)·p_P/(i·p_s))",
            .terms = {{"Q_0", "delivery without load at the stated air pressure", v["flow"], Q::flow},
                      {"p_s", "stated air pressure", stated, Q::pressure},
                      {"Δp_a", "lost on the way from the regulator", lost, Q::pressure},
                      {"w", "wear", v["wear"], Q::share},
                      {"p_P", "highest pressure at P", p, Q::pressure},
                      {"i", "ratio of areas", ratio, Q::none}},
            .result = {"Q", "delivery", left, Q::flow},
            .source = "flow and pressure both go with the air pressure (common practice)"});
  return all;
}

std::vector<Working> HandPump::workings(const Values& v, const Oil&, const Duty& duty) {
  std::vector<Working> all;
  const double p = Seen(duty).highest(1), stroke = v["stroke_volume"],
               slip = 1.0 - v["volumetric_efficiency"];
  const Term pressure{"p_P", "highest pressure at P", p, Q::pressure};
  const Term volume{"V", "oil per stroke", stroke, Q::stroke_volume};
  add(all,
      {.name = "force at the handle at the highest pressure; 350 to 450 N is the most for a person",
       .formula = "F = p_P·V/(s·η)",
       .terms = {pressure,
                 volume,
                 {"s", "path of the hand in the delivering half of a stroke", v["handle_travel"], Q::length},
                 {"η", "share of the hand's work that reaches the oil", v["handle_efficiency"], Q::share}},
       .result = {"F", "force at the handle", p * stroke / (v["handle_travel"] * v["handle_efficiency"]),
                  Q::force},
       .source = "work balance over one stroke; limit from memory"});
  add(all,
      {.name = "oil of a stroke at the highest pressure, suction without pressure",
       .formula = "V_e = V·(1 − (1 − η_v)·p_P/p_r)",
       .terms = {volume,
                 {"η_v", "share still delivered at the rated pressure", v["volumetric_efficiency"], Q::share},
                 pressure,
                 {"p_r", "rated pressure", v["rated_pressure"], Q::pressure}},
       .result = {"V_e", "oil of a stroke", above_zero(stroke * (1.0 - slip * p / v["rated_pressure"])),
                  Q::stroke_volume},
       .source = "part of each stroke slips back, in proportion to the pressure"});
  return all;
}

}  // namespace poise
