// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Calculations of clamps, work supports, lock nuts and weights.
#include <cmath>

#include "parts/loads.hpp"
#include "parts/lock_nut.hpp"
#include "parts/rigid_load.hpp"
#include "parts/swing_clamp.hpp"
#include "parts/work_support.hpp"
#include "parts/worked.hpp"

namespace poise {
namespace {

using Q = Quantity;
using worked::above_zero;
using worked::add;
using worked::Seen;

void add_clamp_force(std::vector<Working>& all, const Values& v, const SwingClamp& clamp, const Seen& seen) {
  const double p = seen.highest(0);
  const Term arm{"k", "force at the arm's tip over that of the piston", clamp.arm_factor, Q::share};
  const Term pressure{"p_A", "highest pressure at A", p, Q::pressure};
  const Term area{"A_A", "area that pulls the arm down", clamp.area, Q::area};
  const Term result{"F", "what the arm's tip presses with", 0.0, Q::force};
  constexpr const char* source = "force balance of the piston; force at the arm by the maker's table";
  if (clamp.by_oil) {
    const double back = seen.lowest(1);
    Working force{.name = "clamping force at the highest pressure, held still, with the lowest at B",
                  .formula = "F = k·(p_A·A_A − p_B·A_B)",
                  .terms = {arm,
                            pressure,
                            area,
                            {"p_B", "lowest pressure at B", back, Q::pressure},
                            {"A_B", "area that lifts the arm", clamp.back_area, Q::area}},
                  .result = result,
                  .source = source};
    force.result.value = above_zero(clamp.arm_factor * (p * clamp.area - back * clamp.back_area));
    add(all, std::move(force));
    return;
  }
  const double spring = v["spring_preload"] + v["spring_rate"] * clamp.part_at;
  Working force{.name = "clamping force at the highest pressure, held still, on a stiff workpiece",
                .formula = "F = k·(p_A·A_A − F_0 − c·x)",
                .terms = {arm,
                          pressure,
                          area,
                          {"F_0", "force of the return spring at rest", v["spring_preload"], Q::force},
                          {"c", "stiffness of the return spring", v["spring_rate"], Q::spring_rate},
                          {"x", "stroke at which the arm meets the workpiece", clamp.part_at, Q::length}},
                .result = result,
                .source = source};
  force.result.value = above_zero(clamp.arm_factor * (p * clamp.area - spring));
  add(all, std::move(force));
}

}  // namespace

std::vector<Working> SwingClamp::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const SwingClamp clamp(v, oil);
  const Seen seen(duty);
  add_clamp_force(all, v, clamp, seen);
  const Term area{"A_A", "area that pulls the arm down", clamp.area, Q::area};
  const Term swing{"s_1", "stroke while it swings", v["swing_stroke"], Q::length};
  add(all, {.name = "oil of a whole stroke at A",
            .formula = "V_A = A_A·(s_1 + s_2)",
            .terms = {area, swing, {"s_2", "stroke straight down", v["clamp_stroke"], Q::length}},
            .result = {"V_A", "oil", clamp.area * clamp.piston.stroke, Q::volume},
            .source = "continuity"});
  const double flow = seen.into(0);
  add(all, {.name = "time of the swing with the greatest flow all along; 0.5 s or more is usual",
            .formula = "t = A_A·s_1/Q_A",
            .terms = {area, swing, {"Q_A", "greatest flow into A", flow, Q::flow}},
            .result = {"t", "time", clamp.area * clamp.swing / flow, Q::time},
            .source = "continuity; time from memory"});
  if (v.given("greatest_flow")) {
    add(all, {.name = "greatest flow over that which this arm may swing with",
              .formula = "r = Q_A/Q_a",
              .terms = {{"Q_A", "greatest flow into A", flow, Q::flow},
                        {"Q_a", "greatest flow for this arm", v["greatest_flow"], Q::flow}},
              .result = {"r", "share of what is allowed", flow / v["greatest_flow"], Q::share},
              .source = "the clamp's table of flow against arm length"});
  }
  return all;
}

std::vector<Working> WorkSupport::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const WorkSupport support(v, oil);
  const double p = Seen(duty).highest(0);
  const double capacity = std::isfinite(p) ? support.capacity(p) : p;
  const Term grip{"g", "capacity over that of the datasheet", v["grip"], Q::share};
  if (v.given("capacity_curve")) {
    add(all,
        {.name = "load that it holds at the highest pressure",
         .formula = "C = g·C_0",
         .terms = {grip, {"C_0", "capacity at this pressure, by its curve", capacity / v["grip"], Q::force}},
         .result = {"C", "capacity", above_zero(capacity), Q::force},
         .source = "the support's datasheet"});
  } else {
    add(all,
        {.name = "load that it holds at the highest pressure",
         .formula = "C = g·C_r·(p_A − p_l)/(p_r − p_l)",
         .terms = {grip,
                   {"C_r", "capacity as stated", v["capacity"], Q::force},
                   {"p_A", "highest pressure at A", p, Q::pressure},
                   {"p_l", "pressure at which it begins to hold", v["lock_pressure"], Q::pressure},
                   {"p_r", "pressure at which the capacity is stated", v["capacity_pressure"], Q::pressure}},
         .result = {"C", "capacity", above_zero(capacity), Q::force},
         .source = "capacity grows evenly from the locking pressure (common practice)"});
  }
  const double squeezed = v["stroke"] - v["gap"];
  if (squeezed >= 0.0) {
    add(all, {.name = "push of the plunger on the workpiece before it is locked, its piston fully up",
              .formula = "F_t = F_0 + c·(s − g_0)",
              .terms = {{"F_0", "force of the contact spring with the plunger on its seat",
                         v["contact_preload"], Q::force},
                        {"c", "stiffness of the contact spring", v["contact_rate"], Q::spring_rate},
                        {"s", "rise of the piston", v["stroke"], Q::length},
                        {"g_0", "rise of the plunger to the workpiece", v["gap"], Q::length}},
              .result = {"F_t", "push on the workpiece", v["contact_preload"] + v["contact_rate"] * squeezed,
                         Q::force},
              .source = "spring"});
  }
  if (!support.by_spring) {
    add(all, {.name = "oil of a whole stroke",
              .formula = "V = A·s",
              .terms = {{"A", "area of the lift piston", support.area, Q::area},
                        {"s", "rise of the piston", v["stroke"], Q::length}},
              .result = {"V", "oil", support.area * v["stroke"], Q::volume},
              .source = "continuity"});
  }
  return all;
}

std::vector<Working> LockNut::workings(const Values& v, const Oil&, const Duty& duty) {
  std::vector<Working> all;
  const double force = Seen(duty).output(0), give = force / v["stiffness"];
  add(all, {.name = "how far the load sinks until the nut carries it",
            .formula = "x = s + F/c",
            .terms = {{"s", "clearance of the nut", v["clearance"], Q::length},
                      {"F", "greatest force on the nut", force, Q::force},
                      {"c", "stiffness of thread, nut and body", v["stiffness"], Q::spring_rate}},
            .result = {"x", "way down", v["clearance"] + give, Q::length},
            .source = "one-sided contact"});
  return all;
}

namespace {

void add_weight(std::vector<Working>& all, double mass) {
  add(all, {.name = "weight",
            .formula = "W = m·g",
            .terms = {{"m", "mass", mass, Q::mass}, {"g", "standard gravity, m/s²", si::gravity, Q::none}},
            .result = {"W", "weight", mass * si::gravity, Q::force},
            .source = "standard gravity 9.80665 m/s2 (ISO 80000-3)"});
}

}  // namespace

std::vector<Working> MassLoad::workings(const Values& v, const Oil&, const Duty&) {
  std::vector<Working> all;
  add_weight(all, v["mass"]);
  return all;
}

std::vector<Working> RigidLoad::workings(const Values& v, const Oil&, const Duty& duty) {
  std::vector<Working> all;
  add_weight(all, v["mass"]);
  const auto points = v.points("points").size();
  const double weight = v["mass"] * si::gravity;
  double most = std::nan("");
  for (std::size_t i = 0; i < points; ++i)
    most = std::fmax(most, Seen(duty).output(static_cast<int>(i)));  // the forces stand first
  add(all, {.name = "greatest share of the weight that one point carried",
            .formula = "s = F/W",
            .terms = {{"F", "greatest force at a point", most, Q::force}, {"W", "weight", weight, Q::force}},
            .result = {"s", "share of the weight", most / weight, Q::share},
            .source = "definition"});
  return all;
}

}  // namespace poise
