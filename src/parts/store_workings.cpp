// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Calculations of accumulators, intensifiers and reservoirs.
#include <cmath>

#include "parts/accumulator.hpp"
#include "parts/cycling_intensifier.hpp"
#include "parts/intensifier.hpp"
#include "parts/reservoir.hpp"
#include "parts/worked.hpp"

namespace poise {
namespace {

using Q = Quantity;
using worked::above_zero;
using worked::add;
using worked::Seen;

constexpr const char* gas_law =
    "polytropic gas law (Sullivan, Fluid Power: Theory and Applications, 4th ed.)";

Term atmosphere_term() { return {"p_atm", "pressure of the air", si::atmosphere, Q::pressure}; }

/// Gas pressure without oil, at work, gauge.
double add_precharge(std::vector<Working>& all, const Values& v, const Oil& oil, const Cushion& gas) {
  const double at_work = gas.absolute - si::atmosphere;
  add(all, {.name = "precharge at working temperature",
            .formula = "p_0 = (p_c + p_atm)·T/T_c − p_atm",
            .terms = {{"p_c", "precharge as charged", v["precharge"], Q::pressure},
                      atmosphere_term(),
                      {"T", "temperature of the oil, K", oil.temperature(), Q::none},
                      {"T_c", "temperature as it was charged, K", v["precharge_temperature"], Q::none}},
            .result = {"p_0", "precharge at work", at_work, Q::pressure},
            .source = "gas law at constant volume: Sullivan, example 15.3"});
  return at_work;
}

/// Gas left at a pressure, m3, at rest.
double gas_at(const Cushion& gas, double pressure) {
  return gas.volume * std::pow(gas.absolute / (pressure + si::atmosphere), 1.0 / gas.exponent);
}

}  // namespace

std::vector<Working> Accumulator::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const Cushion gas = Accumulator(v, oil).gas;
  const double precharge = add_precharge(all, v, oil, gas);
  const Seen seen(duty);
  const double high = seen.highest(0), low = std::fmax(seen.lowest(0), precharge);
  const double end = v["least_gas"] * gas.volume;
  if (!(high > precharge) || gas_at(gas, high) < end) return all;
  const std::vector<Term> terms{{"V_0", "gas without oil", gas.volume, Q::volume},
                                {"p_0", "precharge at work", precharge, Q::pressure},
                                atmosphere_term(),
                                {"p_2", "highest pressure at A", high, Q::pressure},
                                {"n", "polytropic exponent", gas.exponent, Q::none}};
  add(all, {.name = "oil that it holds at the highest pressure, at rest, without friction",
            .formula = "V = V_0·(1 − ((p_0 + p_atm)/(p_2 + p_atm))^(1/n))",
            .terms = terms,
            .result = {"V", "oil", gas.volume - gas_at(gas, high), Q::volume},
            .source = gas_law});
  std::vector<Term> between = terms;
  between.push_back({"p_1", "lowest pressure at A, the precharge at least", low, Q::pressure});
  add(all,
      {.name = "oil that it gives back from the highest to the lowest pressure, at rest, without friction",
       .formula = "ΔV = V_0·(((p_0 + p_atm)/(p_1 + p_atm))^(1/n) − ((p_0 + p_atm)/(p_2 + p_atm))^(1/n))",
       .terms = std::move(between),
       .result = {"ΔV", "oil", above_zero(gas_at(gas, low) - gas_at(gas, high)), Q::volume},
       .source = gas_law});
  if (precharge > 0.0) {
    add(all, {.name = "highest pressure over precharge; a bladder bears 4",
              .formula = "r = p_2/p_0",
              .terms = {{"p_2", "highest pressure at A", high, Q::pressure},
                        {"p_0", "precharge at work", precharge, Q::pressure}},
              .result = {"r", "highest pressure over precharge", high / precharge, Q::none},
              .source = "selection guide for accumulators"});
  }
  return all;
}

std::vector<Working> Intensifier::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const Intensifier here(v, oil);
  const Seen seen(duty);
  const double ratio = v["ratio"], p = seen.highest(0);
  const Term supply{"p_A", "highest pressure at A", p, Q::pressure}, i{"i", "ratio of areas", ratio, Q::none};
  const std::string name = "pressure at B at rest, spring and friction left out";
  if (here.area_r > 0.0) {
    const double back = seen.lowest(2);
    add(all, {.name = name + ", with the lowest at R",
              .formula = "p_B = i·p_A − (i − 1)·p_R",
              .terms = {i, supply, {"p_R", "lowest pressure at R", back, Q::pressure}},
              .result = {"p_B", "pressure at B", ratio * p - (ratio - 1.0) * back, Q::pressure},
              .source = "force balance (Esposito, Fluid Power with Applications, 6th ed.)"});
  } else {
    add(all, {.name = name,
              .formula = "p_B = i·p_A",
              .terms = {i, supply},
              .result = {"p_B", "pressure at B", ratio * p, Q::pressure},
              .source = "force balance (Esposito, Fluid Power with Applications, 6th ed.)"});
  }
  const Term plunger{"d", "diameter of the plunger", v["plunger"], Q::length};
  const Term stroke{"s", "stroke", v["stroke"], Q::length};
  add(all, {.name = "oil of a stroke at B",
            .formula = "V_B = π/4·d²·s",
            .terms = {plunger, stroke},
            .result = {"V_B", "oil", here.area_b * v["stroke"], Q::volume},
            .source = "continuity"});
  add(all, {.name = "oil of a stroke at A",
            .formula = "V_A = i·π/4·d²·s",
            .terms = {i, plunger, stroke},
            .result = {"V_A", "oil", here.area_a * v["stroke"], Q::volume},
            .source = "continuity"});
  return all;
}

std::vector<Working> CyclingIntensifier::workings(const Values& v, const Oil&, const Duty& duty) {
  std::vector<Working> all;
  const Seen seen(duty);
  const double ratio = v["ratio"], p = seen.highest(0), back = seen.lowest(2), flow = seen.output(1);
  const Term i{"i", "ratio", ratio, Q::none};
  add(all, {.name = "pressure at B at which it stands still, with the lowest at R",
            .formula = "p_B = i·p_A − (i − 1)·p_R",
            .terms = {i,
                      {"p_A", "highest pressure at A", p, Q::pressure},
                      {"p_R", "lowest pressure at R", back, Q::pressure}},
            .result = {"p_B", "pressure at B", ratio * p - (ratio - 1.0) * back, Q::pressure},
            .source = "balance of work over one cycle"});
  const Term delivered{"Q_B", "greatest delivery of the pistons", flow, Q::flow};
  add(all, {.name = "oil that its pistons take at A meanwhile",
            .formula = "Q_A = i·Q_B",
            .terms = {i, delivered},
            .result = {"Q_A", "flow into A", ratio * flow, Q::flow},
            .source = "balance of work over one cycle"});
  add(all, {.name = "oil that they give off at R meanwhile",
            .formula = "Q_R = (i − 1)·Q_B",
            .terms = {i, delivered},
            .result = {"Q_R", "flow out of R", (ratio - 1.0) * flow, Q::flow},
            .source = "continuity"});
  return all;
}

std::vector<Working> Reservoir::workings(const Values& v, const Oil& oil, const Duty&) {
  std::vector<Working> all;
  const double usable = v["usable_oil"];
  const double surface = surface_of(v);
  if (!v.given("surface")) {
    add(all, {.name = "walls that give heat off, taken as five sides of a cube",
              .formula = "A = 5·V^(2/3)",
              .terms = {{"V", "usable oil", usable, Q::volume}},
              .result = {"A", "walls", surface, Q::area},
              .source = "geometry"});
  }
  const double warmer = oil.temperature() - v["surroundings"];
  if (!(warmer > 0.0)) return all;
  add(all, {.name = "heat that its walls give off at the job's oil temperature",
            .formula = "P = k·A·ΔT",
            .terms = {{"k", "heat transfer to still air, W/(m²·K)", wall_heat_transfer, Q::none},
                      {"A", "walls that the oil wets", surface, Q::area},
                      {"ΔT", "oil over surroundings", warmer, Q::warming}},
            .result = {"P", "heat given off", wall_heat_transfer * surface * warmer, Q::power},
            .source = "thermal formulas of power units, 2 Btu/(h·ft²·°F)"});
  return all;
}

}  // namespace poise
