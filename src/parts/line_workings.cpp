// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Calculations of hoses, tubes and fittings.
#include <cmath>

#include "parts/fitting.hpp"
#include "parts/line.hpp"
#include "parts/orifice_working.hpp"

namespace poise {
namespace {

using Q = Quantity;
using worked::add;
using worked::Seen;

/// Speed and Reynolds number of the greatest flow through a bore.
struct Speed {
  double flow = 0.0, bore = 0.0;
  worked::Upstream oil;
  double speed = 0.0, reynolds = 0.0;
};

/// The greatest flow with the oil that it has at the end where it comes in.
Speed speed_of(const Seen& seen, const Oil& oil, double bore) {
  const double in = seen.into(0), out = seen.out_of(0);
  const bool backwards = !(in >= out) && std::isfinite(out);
  Speed s{.flow = backwards ? out : in, .bore = bore, .oil{oil, seen.highest(backwards ? 1 : 0)}};
  s.speed = s.flow / circle(bore);
  s.reynolds = s.speed * bore / s.oil.viscosity;
  return s;
}

Term speed_term(const Speed& s) { return {"v", "mean speed of the oil", s.speed, Q::speed}; }
Term reynolds_term(const Speed& s) { return {"Re", "Reynolds number", s.reynolds, Q::none}; }
Term bore_term(const Speed& s) { return {"d", "inner diameter", s.bore, Q::length}; }

void add_speed(std::vector<Working>& all, const Speed& s) {
  add(all, {.name = "speed of the oil with the greatest flow",
            .formula = "v = 4·Q/(π·d²)",
            .terms = {{"Q", "greatest flow", s.flow, Q::flow}, bore_term(s)},
            .result = {"v", "mean speed of the oil", s.speed, Q::speed},
            .source = "continuity"});
  add(all, {.name = "Reynolds number; below about 2000 the flow is laminar",
            .formula = "Re = v·d/ν",
            .terms = {speed_term(s), bore_term(s), s.oil.viscosity_term()},
            .result = {"Re", "Reynolds number", s.reynolds, Q::none},
            .source = "O. Reynolds; definition"});
}

/// Loss by friction and fittings, and what the oil's own weight takes where B lies higher.
void add_loss(std::vector<Working>& all, const Values& v, const Speed& s, double roughness) {
  constexpr double laminar = 1000.0;  // Churchill's factor is 64/Re there to the twelfth digit
  const double f = std::isfinite(s.reynolds) ? churchill(s.reynolds, roughness / s.bore) : s.reynolds;
  if (s.reynolds <= laminar) {
    add(all, {.name = "friction factor, laminar",
              .formula = "f = 64/Re",
              .terms = {reynolds_term(s)},
              .result = {"f", "friction factor of Darcy", 64.0 / s.reynolds, Q::none},
              .source = "Hagen and Poiseuille"});
  }
  const double length = v["length"], fittings = v["fittings"];
  const double loss = (f * length / s.bore + fittings) * s.oil.density * s.speed * s.speed / 2.0;
  add(all, {.name = "pressure that it takes of the greatest flow",
            .formula = "Δp = (f·L/d + K)·ρ·v²/2",
            .terms = {{"f", "friction factor at this Reynolds number by Churchill", f, Q::none},
                      {"L", "length", length, Q::length},
                      bore_term(s),
                      {"K", "loss coefficients of bends and fittings together", fittings, Q::none},
                      s.oil.density_term(),
                      speed_term(s)},
            .result = {"Δp", "pressure from end to end", loss, Q::pressure},
            .source = "Darcy–Weisbach; S. W. Churchill, Chemical Engineering 84 (1977) 91"});
  if (v["rise"] == 0.0) return;
  add(all, {.name = "pressure that the oil's own weight takes from A to B",
            .formula = "Δp_h = ρ·g·h",
            .terms = {s.oil.density_term(),
                      {"g", "standard gravity, m/s²", si::gravity, Q::none},
                      {"h", "how much higher B lies than A", v["rise"], Q::length}},
            .result = {"Δp_h", "pressure at A over that at B, at rest",
                       s.oil.density * si::gravity * v["rise"], Q::pressure},
            .source = "hydrostatics"});
}

/// The higher of both ends.
double highest(const Seen& seen) { return std::fmax(seen.highest(0), seen.highest(1)); }

constexpr std::array allowed_names{"pressure that the wall allows, reckoned on the outer diameter",
                                   "pressure that the wall allows, reckoned on the bore",
                                   "pressure that the wall allows, as a thick wall"};
constexpr std::array allowed_formulas{"p_w = 2·t·R_m/(S·(d + 2·t))", "p_w = 2·t·R_m/(S·d)",
                                      "p_w = R_m·((d + 2·t)² − d²)/(S·((d + 2·t)² + d²))"};
constexpr std::array allowed_sources{"Barlow, thin wall", "thin wall", "Lamé, thick wall"};

}  // namespace

std::vector<Working> Hose::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const Seen seen(duty);
  const Speed s = speed_of(seen, oil, v["bore"]);
  add_speed(all, s);
  add_loss(all, v, s, 0.0);
  const double p = highest(seen), swelling = Hose::swelling(v);
  add(all, {.name = "oil that it swells by at the highest pressure",
            .formula = "V = E·L·p",
            .terms = {{"E", "growth of volume per metre and pressure", swelling, Q::expansion},
                      {"L", "length", v["length"], Q::length},
                      {"p", "highest pressure at its ends", p, Q::pressure}},
            .result = {"V", "oil that it swells by", swelling * v["length"] * p, Q::volume},
            .source = "the hose's datasheet"});
  if (v.given("burst_pressure")) {
    add(all, {.name = "burst pressure over the highest pressure; 4 is usual",
              .formula = "S = p_b/p",
              .terms = {{"p_b", "least burst pressure", v["burst_pressure"], Q::pressure},
                        {"p", "highest pressure at its ends", p, Q::pressure}},
              .result = {"S", "burst pressure over the highest pressure", v["burst_pressure"] / p, Q::none},
              .source = "hose selection notes; Code of Virginia 45.2-802 (4 to 1)"});
  }
  return all;
}

std::vector<Working> Tube::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const Seen seen(duty);
  const Speed s = speed_of(seen, oil, v["bore"]);
  add_speed(all, s);
  add_loss(all, v, s, v["roughness"]);
  const Term bore = bore_term(s), wall{"t", "thickness of the wall", v["wall"], Q::length};
  const TubeWall tube{v["bore"], v["wall"]};
  const double p = highest(seen);
  add(all, {.name = "stress around the bore at the highest pressure",
            .formula = "σ = p·(d² + (d + 2·t)²)/((d + 2·t)² − d²)",
            .terms = {{"p", "highest pressure at its ends", p, Q::pressure}, bore, wall},
            .result = {"σ", "stress around the bore", tube.hoop_stress(p, tube.bore), Q::modulus},
            .source = "Lamé, thick wall"});
  const auto rule = static_cast<std::size_t>(v.word("wall_rule"));
  const double allowed = tube.pressure_at(v["wall_strength"] / v["safety"], static_cast<WallRule>(rule));
  add(all, {.name = allowed_names[rule],
            .formula = allowed_formulas[rule],
            .terms = {wall,
                      {"R_m", "tensile strength of the wall", v["wall_strength"], Q::modulus},
                      {"S", "strength over the stress that is allowed", v["safety"], Q::none},
                      bore},
            .result = {"p_w", "pressure that the wall allows", allowed, Q::pressure},
            .source = allowed_sources[rule]});
  return all;
}

std::vector<Working> Fitting::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const Speed s = speed_of(Seen(duty), oil, v["bore"]);
  add_speed(all, s);
  const double loss = (v["loss"] + v["laminar_loss"] / s.reynolds) * s.oil.density * s.speed * s.speed / 2.0;
  add(all, {.name = "pressure that it takes of the greatest flow",
            .formula = "Δp = (K + K_1/Re)·ρ·v²/2",
            .terms = {{"K", "loss coefficient at high Reynolds numbers", v["loss"], Q::none},
                      {"K_1", "loss coefficient of laminar flow times Re", v["laminar_loss"], Q::none},
                      reynolds_term(s),
                      s.oil.density_term(),
                      speed_term(s)},
            .result = {"Δp", "pressure from end to end", loss, Q::pressure},
            .source = "loss coefficients; Hooper's two-K form, Chemical Engineering 1981 (from memory)"});
  return all;
}

}  // namespace poise
