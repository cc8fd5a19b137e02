// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Calculations of cylinders.
#include <cmath>

#include "parts/cylinder.hpp"
#include "parts/worked.hpp"

namespace poise {
namespace {

using Q = Quantity;
using worked::above_zero;
using worked::add;
using worked::Seen;

constexpr const char* balance = "force balance of the piston";
constexpr const char* continuity = "continuity";

/// Area of a circle less that of one inside it, where there is one.
void add_area(std::vector<Working>& all, const std::string& symbol, const std::string& what,
              const Term& outer, const Term& inner) {
  Working area{.name = what,
               .formula = symbol + " = π/4·" + outer.symbol + "²",
               .terms = {outer},
               .result = {symbol, what, circle(outer.value) - circle(inner.value), Q::area},
               .source = "geometry"};
  if (inner.value > 0.0) {
    area.formula = symbol + " = π/4·(" + outer.symbol + "² − " + inner.symbol + "²)";
    area.terms.push_back(inner);
  }
  add(all, std::move(area));
}

Term bore_term(const Values& v) { return {"d", "bore", v["bore"], Q::length}; }
Term rod_term(const Values& v) { return {"d_r", "rod diameter", v["rod"], Q::length}; }
Term hole_term(const Values& v) { return {"d_h", "through hole", v["hole"], Q::length}; }

/// A side of the piston.
struct Side {
  std::string letter;  ///< of its port
  int port;
  double area;
  Term area_term() const { return {"A_" + letter, "area under the oil of " + letter, area, Q::area}; }
};

void add_oil(std::vector<Working>& all, const Side& side, double stroke) {
  add(all, {.name = "oil of a whole stroke at " + side.letter,
            .formula = "V_" + side.letter + " = A_" + side.letter + "·s",
            .terms = {side.area_term(), {"s", "stroke", stroke, Q::length}},
            .result = {"V_" + side.letter, "oil", side.area * stroke, Q::volume},
            .source = continuity});
}

void add_speed(std::vector<Working>& all, const Side& side, double flow, const std::string& name,
               const std::string& meaning) {
  add(all, {.name = name + ", compression left out",
            .formula = "v = Q_" + side.letter + "/A_" + side.letter,
            .terms = {{"Q_" + side.letter, meaning, flow, Q::flow}, side.area_term()},
            .result = {"v", "speed of the rod", flow / side.area, Q::speed},
            .source = continuity});
}

/// The push that a rod bows out under, as far out as it came (or by its whole stroke), and how far the push
/// is from it.
void add_buckling(std::vector<Working>& all, const Values& v, double out, const Term& push) {
  const Rod rod = Rod::from(v);
  if (!rod.known) return;
  Strut strut = rod.strut;
  strut.length += std::max(std::isfinite(out) ? out : v["stroke"], 0.0);
  if (!(strut.length > 0.0)) return;
  const Term diameter = rod_term(v), hole = hole_term(v);
  Working inertia{.name = "second moment of area of the rod",
                  .formula = "I = π/64·d_r^4",
                  .terms = {diameter},
                  .result = {"I", "second moment of area, m⁴", strut.inertia, Q::none},
                  .source = "geometry"};
  if (hole.value > 0.0) {
    inertia.formula = "I = π/64·(d_r^4 − d_h^4)";
    inertia.terms.push_back(hole);
  }
  add(all, std::move(inertia));
  const double euler = euler_load(strut), squash = strut.area * strut.yield;
  const bool slender = euler < 0.5 * squash;
  add(all,
      {.name = slender ? "push at which the rod bows out, as far out as it came"
                       : "push at which the rod would bow out were it elastic, as far out as it came",
       .formula = "F_E = π²·E·I/(K·L)²",
       .terms = {{"E", "Young's modulus of steel", strut.modulus, Q::modulus},
                 {"I", "second moment of area, m⁴", strut.inertia, Q::none},
                 {"K", "effective length over length, by how its ends are held", strut.end_factor, Q::none},
                 {"L", "length that may bow", strut.length, Q::length}},
       .result = {"F_E", "Euler's buckling load", euler, Q::force},
       .source = "Euler's buckling load"});
  double fails_at = euler;
  if (!slender) {
    add_area(all, "A_r", "cross-section of the rod", diameter, hole);
    fails_at = buckling_load(strut);
    add(all, {.name = "push at which the rod fails: too stout for Euler",
              .formula = "F_k = A_r·R_e·(1 − A_r·R_e/(4·F_E))",
              .terms = {{"A_r", "cross-section of the rod", strut.area, Q::area},
                        {"R_e", "yield strength of the rod", strut.yield, Q::modulus},
                        {"F_E", "Euler's buckling load", euler, Q::force}},
              .result = {"F_k", "buckling load", fails_at, Q::force},
              .source = "J. B. Johnson's parabola (Shigley's Mechanical Engineering Design, from memory)"});
  }
  const std::string symbol = slender ? "F_E" : "F_k";
  add(all, {.name = "buckling load over the push; 3 to 5 is usual",
            .formula = "S = " + symbol + "/" + push.symbol,
            .terms = {{symbol, "buckling load", fails_at, Q::force}, push},
            .result = {"S", "buckling load over the push", fails_at / push.value, Q::none},
            .source = "pages on the buckling of cylinder rods"});
}

/// Less what rubs while the rod moves slowly.
void add_moving(std::vector<Working>& all, const Values& v, const Term& held, double pressing,
                const std::string& pressing_formula, std::vector<Term> pressing_terms,
                const std::string& name) {
  Working moving{.name = name + " while it moves slowly, rubbing taken off",
                 .formula = "F_m = " + held.symbol + " − k·" + pressing_formula + " − F_f",
                 .terms = std::move(pressing_terms),
                 .result = {"F_m", name + " while it moves slowly",
                            above_zero(held.value - v["seal_friction"] * pressing - v["friction"]), Q::force},
                 .source = balance};
  moving.terms.push_back(held);
  moving.terms.push_back({"k", "friction as a share of the pressing force", v["seal_friction"], Q::share});
  moving.terms.push_back({"F_f", "friction that is always there", v["friction"], Q::force});
  add(all, std::move(moving));
}

/// Force of a single-acting cylinder held still at the highest pressure: oil less spring.
Term add_single_force(std::vector<Working>& all, const Values& v, const Side& side, const Seen& seen) {
  const bool pulls = v.word("acts") == 1;
  const double p = seen.highest(0), preload = v["spring_preload"], rate = v["spring_rate"];
  const std::string what =
      pulls ? "pull at the highest pressure, held still" : "push at the highest pressure, held still";
  Working force{.name = what,
                .formula = "F = p_A·A_A",
                .terms = {{"p_A", "highest pressure at A", p, Q::pressure}, side.area_term()},
                .result = {"F", what, p * side.area, Q::force},
                .source = balance};
  if (preload > 0.0 || rate > 0.0) {
    const double way = pulls ? v["stroke"] - seen.nearest(0) : seen.farthest(0);
    force.formula += " − (F_0 + c·x)";
    force.terms.push_back({"F_0", "force of its spring at rest", preload, Q::force});
    force.terms.push_back({"c", "stiffness of its spring", rate, Q::spring_rate});
    force.terms.push_back({"x", "how far it came from rest", way, Q::length});
    force.result.value -= preload + rate * way;
  }
  force.result.value = above_zero(force.result.value);
  const Term result = force.result;
  add(all, std::move(force));
  return result;
}

}  // namespace

std::vector<Working> SingleActingCylinder::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const SingleActingCylinder here(v, oil);
  const Seen seen(duty);
  const Side side{"A", 0, here.area};
  add_area(all, "A_A", "area under the oil of A", bore_term(v), here.pulls ? rod_term(v) : hole_term(v));
  const Term force = add_single_force(all, v, side, seen);
  const double p = seen.highest(0);
  add_moving(all, v, force, p * here.area, "p_A·A_A",
             {{"p_A", "highest pressure at A", p, Q::pressure}, side.area_term()},
             here.pulls ? "pull" : "push");
  add_oil(all, side, v["stroke"]);
  add_speed(all, side, seen.into(0), "speed with the greatest flow in", "greatest flow into A");
  add_speed(all, side, seen.out_of(0), "speed with the greatest flow out", "greatest flow out of A");
  if (!here.pulls) add_buckling(all, v, seen.farthest(0), force);
  return all;
}

namespace {

/// Push or pull of a double-acting cylinder held still: the driving side at its highest, the other at its
/// lowest.
Term add_double_force(std::vector<Working>& all, const Side& driving, const Side& other, const Seen& seen,
                      const std::string& name) {
  const double p = seen.highest(driving.port), back = seen.lowest(other.port);
  const Term force{driving.letter == "A" ? "F_out" : "F_in", name,
                   above_zero(p * driving.area - back * other.area), Q::force};
  add(all, {.name = name + ", held still, with the lowest at " + other.letter,
            .formula = force.symbol + " = p_" + driving.letter + "·A_" + driving.letter + " − p_" +
                       other.letter + "·A_" + other.letter,
            .terms = {{"p_" + driving.letter, "highest pressure at " + driving.letter, p, Q::pressure},
                      driving.area_term(),
                      {"p_" + other.letter, "lowest pressure at " + other.letter, back, Q::pressure},
                      other.area_term()},
            .result = force,
            .source = balance});
  return force;
}

}  // namespace

std::vector<Working> DoubleActingCylinder::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const DoubleActingCylinder here(v, oil);
  const Seen seen(duty);
  const Side a{"A", 0, here.area_a}, b{"B", 1, here.area_b};
  add_area(all, "A_A", "area under the oil of A", bore_term(v), hole_term(v));
  add_area(all, "A_B", "area under the oil of B", bore_term(v), rod_term(v));
  const double ratio = here.area_a / here.area_b;
  add(all, {.name = "ratio of areas",
            .formula = "φ = A_A/A_B",
            .terms = {a.area_term(), b.area_term()},
            .result = {"φ", "ratio of areas", ratio, Q::none},
            .source = "definition"});
  const Term push = add_double_force(all, a, b, seen, "push at the highest pressure at A");
  const double p = seen.highest(0), back = std::max(seen.lowest(1), 0.0);
  add_moving(all, v, push, p * here.area_a + back * here.area_b, "(p_A·A_A + p_B·A_B)",
             {{"p_A", "highest pressure at A", p, Q::pressure},
              a.area_term(),
              {"p_B", "lowest pressure at B, no suction counted", back, Q::pressure},
              b.area_term()},
             "push");
  add_double_force(all, b, a, seen, "pull at the highest pressure at B");
  add(all,
      {.name = "pressure at B if it is shut in while A is pressed, nothing resisting",
       .formula = "p_B = φ·p_A",
       .terms = {{"φ", "ratio of areas", ratio, Q::none}, {"p_A", "highest pressure at A", p, Q::pressure}},
       .result = {"p_B", "pressure at B", ratio * p, Q::pressure},
       .source = "pages on intensification: rod side, annulus pressure"});
  add_oil(all, a, v["stroke"]);
  add_oil(all, b, v["stroke"]);
  add_speed(all, a, seen.into(0), "speed out with the greatest flow into A", "greatest flow into A");
  add_speed(all, b, seen.into(1), "speed in with the greatest flow into B", "greatest flow into B");
  const double in = seen.into(1);
  add(all, {.name = "flow that A gives back while the greatest flow goes into B",
            .formula = "Q_r = φ·Q_B",
            .terms = {{"φ", "ratio of areas", ratio, Q::none}, {"Q_B", "greatest flow into B", in, Q::flow}},
            .result = {"Q_r", "return flow", ratio * in, Q::flow},
            .source = continuity});
  add_buckling(all, v, seen.farthest(0), push);
  return all;
}

}  // namespace poise
