// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Calculations of what sits in lines: blocks, couplings, filters, coolers, damping, gauges.
#include <cmath>

#include "parts/cooler.hpp"
#include "parts/filter.hpp"
#include "parts/gauge.hpp"
#include "parts/manifold.hpp"
#include "parts/orifice_working.hpp"
#include "parts/quick_coupling.hpp"
#include "parts/snubber.hpp"
#include "parts/warmed_oil.hpp"

namespace poise {
namespace {

using Q = Quantity;
using worked::add;
using worked::Seen;

constexpr const char* definition = "definition";

}  // namespace

std::vector<Working> Manifold::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const Seen seen(duty);
  double most = std::nan("");
  for (int i = 1; i < oil_ports; ++i) most = std::fmax(most, seen.through(i));
  worked::add_drop(all, "drop of one drilling with the greatest flow",
                   worked::drop_of(v, oil, {most, "greatest flow at a drilling"}));
  return all;
}

std::vector<Working> QuickCoupling::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  worked::add_drop(all, "drop with the greatest flow, joined",
                   worked::drop_of(v, oil, {Seen(duty).through(0)}));
  return all;
}

std::vector<Working> Filter::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  if (v["torn"] > 0.0) return all;
  const Restriction clean = clean_in(v, oil);
  const double flow = Seen(duty).into(0);
  const worked::Expression drop = worked::drop_with(
      clean, {flow}, v.given("drop_curve") ? ", by least squares through its curve" : ", from its clean drop",
      "Darcy's law through the element, turbulent housing");
  worked::add_drop(all, "drop with the greatest flow, clean, bypass shut", drop);
  if (!v.given("bypass_pressure")) return all;
  const double bypass = v["bypass_pressure"];
  const double left = clean.b * flow / (bypass - clean.a * flow * flow);
  if (!(left > 0.0 && left < 1.0)) return all;
  add(all, {.name = "how much of its element dirt may close before the bypass opens at the greatest flow",
            .formula = "c = 1 − b·Q/(p_b − a·Q²)",
            .terms = {{"b", "laminar coefficient of the clean element, Pa/(m³/s)", clean.b, Q::none},
                      {"Q", "greatest flow", flow, Q::flow},
                      {"p_b", "pressure at which the bypass opens", bypass, Q::pressure},
                      {"a", "turbulent coefficient of the housing, Pa/(m³/s)²", clean.a, Q::none}},
            .result = {"c", "share of the element's face", 1.0 - left, Q::share},
            .source = "Darcy's law through the open part of the element"});
  return all;
}

std::vector<Working> Cooler::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  worked::add_drop(all, "drop with the greatest flow", worked::drop_of(v, oil, {Seen(duty).through(0)}));
  const double warmer = oil.temperature() - v["coolant_temperature"];
  if (!(warmer > 0.0)) return all;
  add(all, {.name = "heat that it carries off at the job's oil temperature",
            .formula = "P = G·ΔT",
            .terms = {{"G", "conductance", v["conductance"], Q::conductance},
                      {"ΔT", "oil over coolant", warmer, Q::warming}},
            .result = {"P", "heat carried off", v["conductance"] * warmer, Q::power},
            .source = "heat by one conductance"});
  return all;
}

std::vector<Working> Snubber::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const double bore = v["bore"];
  add(all, {.name = "area of the hole",
            .formula = "A_0 = π/4·d²",
            .terms = {{"d", "diameter of the hole", bore, Q::length}},
            .result = {"A_0", "area", circle(bore), Q::area},
            .source = "geometry"});
  const Seen seen(duty);
  const worked::Hole hole{.orifice{.area = circle(bore)}};
  worked::add_drop(all, "drop with the greatest flow",
                   worked::drop_of(hole, oil, {seen.into(0)}, seen.highest(0)));
  return all;
}

std::vector<Working> Capillary::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const Seen seen(duty);
  const double bore = v["bore"], flow = seen.into(0);
  const worked::Upstream here(oil, seen.highest(0));
  const double speed = flow / circle(bore);
  const double drop =
      128.0 * here.viscosity * here.density * v["length"] / (std::numbers::pi * std::pow(bore, 4)) * flow +
      v["end_loss"] * here.density * speed * speed / 2.0;
  add(all, {.name = "drop with the greatest flow",
            .formula = "Δp = 128·ν·ρ·L·Q/(π·d^4) + K·ρ·(4·Q/(π·d²))²/2",
            .terms = {here.viscosity_term(),
                      here.density_term(),
                      {"L", "length of the bore", v["length"], Q::length},
                      {"d", "inner diameter", bore, Q::length},
                      {"Q", "greatest flow", flow, Q::flow},
                      {"K", "loss coefficient of both ends", v["end_loss"], Q::none}},
            .result = {"Δp", "drop", drop, Q::pressure},
            .source = "Hagen and Poiseuille; end loss after Boussinesq (from memory)"});
  return all;
}

std::vector<Working> Gauge::workings(const Values& v, const Oil&, const Duty& duty) {
  std::vector<Working> all;
  const double range = v["range"], highest = Seen(duty).highest(0);
  add(all, {.name = "highest pressure on its scale; 50 to 75 % is usual",
            .formula = "s = p_M/p_f",
            .terms = {{"p_M", "highest pressure at M", highest, Q::pressure},
                      {"p_f", "full scale", range, Q::pressure}},
            .result = {"s", "share of the scale", highest / range, Q::share},
            .source = "gauge guide on choosing a range"});
  add(all, {.name = "largest error by its class",
            .formula = "e = k·p_f",
            .terms = {{"k", "class: error as a share of full scale", v["accuracy"], Q::share},
                      {"p_f", "full scale", range, Q::pressure}},
            .result = {"e", "largest error", v["accuracy"] * range, Q::pressure},
            .source = definition});
  return all;
}

std::vector<Working> WarmedOil::workings(const Values&, const Oil& oil, const Duty& duty) {
  constexpr double warming = 10.0;
  std::vector<Working> all;
  const double here = Seen(duty).highest(0);
  const double modulus = std::isfinite(here) ? oil.effective_modulus(here) : here;
  const double rise = (oil.expansion() - steel_expansion) * modulus * warming;
  add(all, {.name = "pressure that each 10 K bring it between stiff walls, at the highest pressure",
            .formula = "Δp = (β − γ)·K_e·ΔT",
            .terms = {{"β", "expansion of the oil", oil.expansion(), Q::expansivity},
                      {"γ", "expansion of the steel's volume", steel_expansion, Q::expansivity},
                      {"K_e", "effective modulus of the oil with its air", modulus, Q::modulus},
                      {"ΔT", "how much warmer it gets", warming, Q::warming}},
            .result = {"Δp", "rise of pressure", rise, Q::pressure},
            .source = "conservation of mass"});
  return all;
}

}  // namespace poise
