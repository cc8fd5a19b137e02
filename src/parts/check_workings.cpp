// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Calculations of the valves that let oil pass one way and hold.
#include "parts/check.hpp"
#include "parts/counterbalance.hpp"
#include "parts/hose_burst_valve.hpp"
#include "parts/pilot_operated_check.hpp"
#include "parts/shuttle.hpp"
#include "parts/worked.hpp"

namespace poise {
namespace {

using Q = Quantity;
using worked::add;
using worked::Seen;

bool moves_freely(const Values& v) { return v["least_opening"] == 0.0 && v["greatest_opening"] == 1.0; }

void add_free_way(std::vector<Working>& all, const Values& v, const Oil& oil, const std::string& name,
                  double flow) {
  const common::CheckOpening check(v["cracking_pressure"]);
  worked::add_opening(all, name, {.cracking = check.cracking, .band = check.band}, common::drop_of(v, oil),
                      worked::drop_of(v, oil, {flow}));
}

void add_held_leak(std::vector<Working>& all, const Values& v, double highest) {
  const Leak leak = common::leak_of(v);
  if (!(leak.k > 0.0)) return;
  const double stated = common::leakage_pressure(v);
  add(all, {.name = "leakage at the highest pressure that it holds, the other side without pressure",
            .formula = "Q_l = Q_s·p/p_s",
            .terms = {{"Q_s", "leakage as stated, or as its class stands for", leak.k * stated, Q::flow},
                      {"p", "highest pressure that it holds", highest, Q::pressure},
                      {"p_s", "pressure at which it is stated", stated, Q::pressure}},
            .result = {"Q_l", "leakage", leak.flow(highest), Q::flow},
            .source = "laminar leak"});
}

}  // namespace

std::vector<Working> Check::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  if (!moves_freely(v)) return all;
  const Seen seen(duty);
  add_free_way(all, v, oil, "drop from A to B with the greatest flow", seen.into(0));
  add_held_leak(all, v, seen.highest(1));
  return all;
}

std::vector<Working> PilotOperatedCheck::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  if (!moves_freely(v)) return all;
  const Seen seen(duty);
  const double load = seen.highest(1), ratio = v["ratio"], cracking = v["cracking_pressure"];
  const bool drained = v.word("drain") == 1;
  std::string name = "pilot pressure that begins to open it against the highest load, A ";
  name += drained ? "and Y without pressure" : "without pressure";
  add(all, {.name = name,
            .formula = "p_X = (p_B + p_c)/i",
            .terms = {{"p_B", "highest pressure at B", load, Q::pressure},
                      {"p_c", "cracking pressure", cracking, Q::pressure},
                      {"i", "pilot ratio", ratio, Q::none}},
            .result = {"p_X", "pressure at X", (load + cracking) / ratio, Q::pressure},
            .source = "force balance on poppet and pilot piston"});
  // With a drain outside the pressure at A helps the pilot; inside it works against it.
  add(all,
      {.name = drained ? "less pilot pressure for each unit of pressure at A"
                       : "more pilot pressure for each unit of pressure at A",
       .formula = drained ? "k_A = 1/i" : "k_A = 1 − 1/i",
       .terms = {{"i", "pilot ratio", ratio, Q::none}},
       .result = {"k_A", "share of the pressure at A", drained ? 1.0 / ratio : 1.0 - 1.0 / ratio, Q::share},
       .source = "force balance on poppet and pilot piston"});
  const double pilot = seen.highest(2);
  add(all, {.name = "highest pilot pressure over that needed",
            .formula = "r = p_m/p_X",
            .terms = {{"p_m", "highest pressure at X", pilot, Q::pressure},
                      {"p_X", "pilot pressure needed", (load + cracking) / ratio, Q::pressure}},
            .result = {"r", "highest pilot pressure over that needed", pilot * ratio / (load + cracking),
                       Q::share},
            .source = "definition"});
  add_free_way(all, v, oil, "drop from A to B with the greatest flow", seen.into(0));
  worked::add_drop(all, "drop from B to A with the greatest flow, held fully open by its pilot",
                   worked::drop_of(v, oil, {seen.out_of(0)}));
  add_held_leak(all, v, load);
  return all;
}

std::vector<Working> Counterbalance::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  if (!moves_freely(v)) return all;
  const Seen seen(duty);
  const double setting = v["setting"], ratio = v["ratio"], load = seen.highest(0);
  add(all, {.name = "setting over the highest pressure at A, which is more than the load makes while a pump "
                    "drives it; 1.3 over the load alone is usual",
            .formula = "r = p_s/p_A",
            .terms = {{"p_s", "setting", setting, Q::pressure},
                      {"p_A", "highest pressure at A", load, Q::pressure}},
            .result = {"r", "setting over the highest pressure at A", setting / load, Q::share},
            .source = "vendors' setting advice"});
  if (ratio > 0.0 && load < setting) {
    add(all, {.name = "pilot pressure that begins to lower the highest load, B and vent without pressure",
              .formula = "p_X = (p_s − p_A)/i",
              .terms = {{"p_s", "setting", setting, Q::pressure},
                        {"p_A", "highest pressure at A", load, Q::pressure},
                        {"i", "pilot ratio", ratio, Q::none}},
              .result = {"p_X", "pressure at X", (setting - load) / ratio, Q::pressure},
              .source = "force balance on seat, pilot and spring chamber"});
  }
  if (ratio > 0.0) {
    add(all, {.name = "pilot pressure that begins to open it without load, B and vent without pressure",
              .formula = "p_X0 = p_s/i",
              .terms = {{"p_s", "setting", setting, Q::pressure}, {"i", "pilot ratio", ratio, Q::none}},
              .result = {"p_X0", "pressure at X", setting / ratio, Q::pressure},
              .source = "force balance on seat, pilot and spring chamber"});
  }
  add(all,
      {.name = v.word("spring_chamber") == 1 ? "what each unit of pressure in its vent Y adds to the setting"
                                             : "what each unit of pressure at B adds to the setting",
       .formula = "k_b = 1 + i",
       .terms = {{"i", "pilot ratio", ratio, Q::none}},
       .result = {"k_b", "times the back pressure", 1.0 + ratio, Q::none},
       .source = "force balance on seat, pilot and spring chamber"});
  worked::add_drop(all, "drop from A to B with the greatest flow, fully open",
                   worked::drop_of(v, oil, {seen.into(0)}));
  add_free_way(all, v, oil, "drop from B to A with the greatest flow, through its check", seen.out_of(0));
  add_held_leak(all, v, load);
  return all;
}

std::vector<Working> HoseBurstValve::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const Restriction here = common::drop_of(v, oil);
  const double drop = trip_drop(v, oil);
  const double trips_at = here.flow(drop, 1.0);
  add(all, {.name = "flow at which it shuts in this oil",
            .formula = "Q_t = (√(b² + 4·a·Δp_t) − b)/(2·a)",
            .terms = {{"Δp_t", "drop of its trip flow in the oil that it was measured in", drop, Q::pressure},
                      {"a", "turbulent coefficient of its drop, Pa/(m³/s)²", here.a, Q::none},
                      {"b", "laminar coefficient of its drop in this oil, Pa/(m³/s)", here.b, Q::none}},
            .result = {"Q_t", "flow from B to A at which it shuts", trips_at, Q::flow},
            .source = "force balance of a spring-held plate: it knows a pressure difference only"});
  const double lowering = Seen(duty).out_of(0);
  add(all, {.name = "trip flow over the greatest flow in use; 1.2 to 1.5 is usual",
            .formula = "r = Q_t/Q",
            .terms = {{"Q_t", "flow at which it shuts in this oil", trips_at, Q::flow},
                      {"Q", "greatest flow from B to A", lowering, Q::flow}},
            .result = {"r", "trip flow over the greatest flow", trips_at / lowering, Q::share},
            .source = "lift-table note on velocity fuses; factors common practice"});
  worked::add_drop(all, "drop from B to A with the greatest flow", worked::drop_of(v, oil, {lowering}));
  return all;
}

std::vector<Working> Shuttle::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  worked::add_drop(all, "drop to C with the greatest flow, one seat fully open",
                   worked::drop_of(v, oil, {Seen(duty).through(2), "greatest flow at C"}));
  return all;
}

}  // namespace poise
