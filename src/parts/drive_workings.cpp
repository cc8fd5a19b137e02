// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Calculations of what turns: electric motors, pumps and motors on shafts.
#include <cmath>

#include "parts/electric_motor.hpp"
#include "parts/hydraulic_motor.hpp"
#include "parts/shaft_pump.hpp"
#include "parts/worked.hpp"

namespace poise {
namespace {

using Q = Quantity;
using worked::above_zero;
using worked::add;
using worked::Seen;

constexpr const char* losses =
    "volumetric and torque losses after W. E. Wilson, Trans. ASME 68 (1946) 115 (from memory)";

/// The terms of a rotor's torque in either of its forms.
std::vector<Term> torque_terms(const Values& v, const Term& pressure) {
  return {{"V", "displacement", v["displacement"], Q::displacement},
          pressure,
          {"η_m", "mechanical efficiency at the rated pressure", v["mechanical_efficiency"], Q::share},
          {"i", "share of the friction that is there without pressure", v["idle_share"], Q::share},
          {"p_r", "rated pressure", v["rated_pressure"], Q::pressure}};
}

void add_power(std::vector<Working>& all, const std::string& name, double torque, double speed,
               const std::string& speed_meaning) {
  add(all, {.name = name,
            .formula = "P = 2·π·n·M",
            .terms = {{"n", speed_meaning, speed, Q::rotation}, {"M", "torque", torque, Q::torque}},
            .result = {"P", "power at the shaft", one_turn * speed * torque, Q::power},
            .source = "power of a shaft (closed form)"});
}

}  // namespace

std::vector<Working> ElectricMotor::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const ElectricMotor motor(v, oil);
  const Seen seen(duty);
  const double rated = motor.rated_power / (one_turn * v["rated_speed"]);
  add(all, {.name = "rated torque",
            .formula = "M_r = P_r/(2·π·n_r)",
            .terms = {{"P_r", "rated power", motor.rated_power, Q::power},
                      {"n_r", "rated speed", v["rated_speed"], Q::rotation}},
            .result = {"M_r", "rated torque", rated, Q::torque},
            .source = "power of a shaft (closed form)"});
  add(all, {.name = "torque at which it stalls",
            .formula = "M_b = k_b·M_r",
            .terms = {{"k_b", "breakdown ratio", v["breakdown_ratio"], Q::none},
                      {"M_r", "rated torque", rated, Q::torque}},
            .result = {"M_b", "breakdown torque", motor.breakdown, Q::torque},
            .source = "the motor's datasheet"});
  const double torque = seen.output(0), power = seen.output(1);
  add(all, {.name = "breakdown torque over the greatest torque",
            .formula = "S = M_b/M",
            .terms = {{"M_b", "breakdown torque", motor.breakdown, Q::torque},
                      {"M", "greatest torque, its start among it", torque, Q::torque}},
            .result = {"S", "breakdown torque over the greatest torque", motor.breakdown / torque, Q::none},
            .source = "definition"});
  add(all, {.name = "greatest power over the rated power",
            .formula = "r = P/P_r",
            .terms = {{"P", "greatest power at its shaft", power, Q::power},
                      {"P_r", "rated power", motor.rated_power, Q::power}},
            .result = {"r", "load at its greatest", power / motor.rated_power, Q::share},
            .source = "definition"});
  return all;
}

std::vector<Working> ShaftPump::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const ShaftPump pump(v, oil);
  const double p = Seen(duty).highest(1), speed = v["rated_speed"];
  const Term pressure{"p_P", "highest pressure at P", p, Q::pressure};
  add(all,
      {.name = "delivery at rated speed and the highest pressure, suction without pressure",
       .formula = "Q = V·n_r·(1 − (1 − η_v + w)·p_P/p_r)",
       .terms = {{"V", "displacement", v["displacement"], Q::displacement},
                 {"n_r", "rated speed", speed, Q::rotation},
                 {"η_v", "volumetric efficiency at the rated pressure", v["volumetric_efficiency"], Q::share},
                 {"w", "wear", v["wear"], Q::share},
                 pressure,
                 {"p_r", "rated pressure", v["rated_pressure"], Q::pressure}},
       .result = {"Q", "delivery", above_zero(v["displacement"] * speed - pump.slip * p), Q::flow},
       .source = losses});
  const double torque = pump.rotor.per_angle * p + pump.rotor.fixed + pump.rotor.with_drop * p;
  add(all, {.name = "torque that it takes at the highest pressure, suction without pressure",
            .formula = "M = V·(p_P + (1/η_m − 1)·(i·p_r + (1 − i)·p_P))/(2·π)",
            .terms = torque_terms(v, pressure),
            .result = {"M", "torque", torque, Q::torque},
            .source = losses});
  add_power(all, "power that it takes at rated speed and the highest pressure", torque, speed, "rated speed");
  return all;
}

namespace {

/// Torque of a motor one way: pressed at one port, the other at its lowest.
void add_torque(std::vector<Working>& all, const Values& v, const HydraulicMotor& motor, const Seen& seen,
                int in, const std::string& name) {
  const double over = above_zero(seen.highest(in) - seen.lowest(1 - in));
  const Rotor& rotor = motor.rotor;
  const double torque = above_zero(rotor.per_angle * over - rotor.fixed - rotor.with_drop * over);
  const Term pressure{
      "Δp",
      in == 0 ? "highest pressure at A less the lowest at B" : "highest pressure at B less the lowest at A",
      over, Q::pressure};
  add(all, {.name = name,
            .formula = "M = V·(Δp − (1 − η_m)·(i·p_r + (1 − i)·Δp))/(2·π)",
            .terms = torque_terms(v, pressure),
            .result = {"M", "torque at the shaft", torque, Q::torque},
            .source = losses});
}

}  // namespace

std::vector<Working> HydraulicMotor::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const HydraulicMotor motor(v, oil);
  const Seen seen(duty);
  const bool forwards = duty.speed.empty() || duty.speed[0].high > 0.0;
  const bool backwards = !duty.speed.empty() && duty.speed[0].low < 0.0;
  if (forwards) add_torque(all, v, motor, seen, 0, "torque forwards at the greatest difference of pressure");
  if (backwards && std::isfinite(seen.into(1)))
    add_torque(all, v, motor, seen, 1, "torque backwards at the greatest difference of pressure");
  const double speed =
      forwards && !duty.speed.empty() ? above_zero(duty.speed[0].high / one_turn) : std::nan("");
  const double p = seen.highest(0);
  const double leak = (motor.across.k + motor.to_drain.k) * p;
  add(all,
      {.name =
           "oil that A takes at the greatest speed and the highest pressure, B and drain without pressure",
       .formula = "Q_A = V·(n + n_r·(1/η_v − 1 + w)·p_A/p_r)",
       .terms = {{"V", "displacement", v["displacement"], Q::displacement},
                 {"n", "greatest speed forwards", speed, Q::rotation},
                 {"n_r", "rated speed", v["rated_speed"], Q::rotation},
                 {"η_v", "volumetric efficiency at rated speed and pressure", v["volumetric_efficiency"],
                  Q::share},
                 {"w", "wear", v["wear"], Q::share},
                 {"p_A", "highest pressure at A", p, Q::pressure},
                 {"p_r", "rated pressure", v["rated_pressure"], Q::pressure}},
       .result = {"Q_A", "flow into A", v["displacement"] * speed + leak, Q::flow},
       .source = losses});
  return all;
}

}  // namespace poise
