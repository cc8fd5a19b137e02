// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Calculations of the valves that reduce, put in order and unload, and of the pressure switch.
#include "parts/pressure_switch.hpp"
#include "parts/reducing_non_relieving.hpp"
#include "parts/sequence.hpp"
#include "parts/unloading_valve.hpp"
#include "parts/worked.hpp"

namespace poise {
namespace {

using Q = Quantity;
using worked::add;
using worked::Seen;

constexpr const char* opening_law = "one law of opening for pressure valves";

/// What the spring of a reducing valve holds the outlet at; what stands at T adds to it.
void add_shut(std::vector<Working>& all, const Values& v, double drain) {
  add(all, {.name = "outlet with nothing flowing, at the highest pressure in its drain",
            .formula = "p_A = p_s + p_T",
            .terms = {{"p_s", "setting", v["setting"], Q::pressure},
                      {"p_T", "highest pressure at T: the spring chamber sees it", drain, Q::pressure}},
            .result = {"p_A", "pressure at A", v["setting"] + drain, Q::pressure},
            .source = opening_law});
}

void add_outlet(std::vector<Working>& all, const Values& v) {
  add(all,
      {.name = "outlet at which it is fully open, drain without pressure",
       .formula = "p_o = p_s·(1 − o)",
       .terms = {{"p_s", "setting", v["setting"], Q::pressure}, {"o", "override", v["override"], Q::share}},
       .result = {"p_o", "pressure at A", v["setting"] * (1.0 - v["override"]), Q::pressure},
       .source = opening_law});
}

/// Below this main pressure the branch gets less than its reduced pressure while it moves.
void add_main_needed(std::vector<Working>& all, const Values& v, const Oil& oil, double flow) {
  const worked::Expression drop = worked::drop_of(v, oil, {flow});
  worked::add_drop(all, "drop from P to A with the greatest flow, fully open", drop);
  const double outlet = v["setting"] * (1.0 - v["override"]);
  add(all, {.name = "main pressure needed for the greatest flow at the reduced pressure",
            .formula = "p_P = p_o + Δp",
            .terms = {{"p_o", "outlet at which it is fully open", outlet, Q::pressure},
                      {"Δp", "drop with the greatest flow, fully open", drop.value, Q::pressure}},
            .result = {"p_P", "pressure at P", outlet + drop.value, Q::pressure},
            .source = "sum of the pressures along the oil's way"});
}

}  // namespace

std::vector<Working> Reducing::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const Seen seen(duty);
  add_shut(all, v, seen.highest(2));
  add(all,
      {.name = "outlet at which it begins to let off, drain without pressure",
       .formula = "p_r = p_s·(1 + d)",
       .terms = {{"p_s", "setting", v["setting"], Q::pressure}, {"d", "dead band", v["dead_band"], Q::share}},
       .result = {"p_r", "pressure at A", v["setting"] * (1.0 + v["dead_band"]), Q::pressure},
       .source = opening_law});
  add_outlet(all, v);
  add_main_needed(all, v, oil, seen.into(0));
  return all;
}

std::vector<Working> ReducingNonRelieving::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const Seen seen(duty);
  add_shut(all, v, seen.highest(2));
  add_outlet(all, v);
  add_main_needed(all, v, oil, seen.into(0));
  return all;
}

std::vector<Working> Sequence::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const Seen seen(duty);
  const std::string pilot = v.word("pilot") == 1 ? "X" : "A";
  const double full = v["setting"] * (1.0 + v["override"]), drain = seen.highest(2);
  add(all, {.name = "pilot pressure at which it begins to open, at the highest pressure in its drain",
            .formula = "p_" + pilot + " = p_s + p_Y",
            .terms = {{"p_s", "setting", v["setting"], Q::pressure},
                      {"p_Y", "highest pressure at Y: the spring chamber sees it", drain, Q::pressure}},
            .result = {"p_" + pilot, "pressure at " + pilot, v["setting"] + drain, Q::pressure},
            .source = "drained outside: NAVEDTRA 14105 Fluid Power, ch. 6"});
  add(all,
      {.name = "pilot pressure at which it is fully open, drain without pressure",
       .formula = "p_o = p_s·(1 + o)",
       .terms = {{"p_s", "setting", v["setting"], Q::pressure}, {"o", "override", v["override"], Q::share}},
       .result = {"p_o", "pressure at " + pilot, full, Q::pressure},
       .source = opening_law});
  worked::add_drop(all, "drop from A to B with the greatest flow, fully open",
                   worked::drop_of(v, oil, {seen.into(0)}));
  if (v.word("reverse_check") == 1) {
    const common::CheckOpening check(v["cracking_pressure"]);
    worked::add_opening(all, "drop from B to A with the greatest return flow",
                        {.cracking = check.cracking, .band = check.band}, common::drop_of(v, oil),
                        worked::drop_of(v, oil, {seen.out_of(0), "greatest return flow"}));
  }
  return all;
}

std::vector<Working> UnloadingValve::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  add(all, {.name = "pilot pressure at which it shuts again",
            .formula = "p_X = p_s·(1 − d)",
            .terms = {{"p_s", "setting: it opens there", v["setting"], Q::pressure},
                      {"d", "differential", v["differential"], Q::share}},
            .result = {"p_X", "pressure at X", v["setting"] * (1.0 - v["differential"]), Q::pressure},
            .source = "definition of the differential"});
  const double flow = Seen(duty).into(0);
  const worked::Expression drop = worked::drop_of(v, oil, {flow});
  worked::add_drop(all, "pressure that the pump idles at with the greatest flow, outlet without pressure",
                   drop);
  add(all, {.name = "heat while it unloads the greatest flow",
            .formula = "P = Δp·Q",
            .terms = {{"Δp", "drop with the greatest flow", drop.value, Q::pressure},
                      {"Q", "greatest flow", flow, Q::flow}},
            .result = {"P", "power that becomes heat", drop.value * flow, Q::power},
            .source = "power of a flow (closed form)"});
  return all;
}

std::vector<Working> PressureSwitch::workings(const Values& v, const Oil&, const Duty& duty) {
  std::vector<Working> all;
  const double on = v["setting"], off = v["reset"], highest = Seen(duty).highest(0);
  add(all, {.name = "dead band",
            .formula = "Δp = p_on − p_off",
            .terms = {{"p_on", "rising pressure that makes the contact", on, Q::pressure},
                      {"p_off", "falling pressure that breaks it", off, Q::pressure}},
            .result = {"Δp", "dead band", on - off, Q::pressure},
            .source = "definition"});
  add(all, {.name = "highest pressure over the setting",
            .formula = "r = p_M/p_on",
            .terms = {{"p_M", "highest pressure at M", highest, Q::pressure},
                      {"p_on", "setting", on, Q::pressure}},
            .result = {"r", "highest pressure over the setting: below 1 the contact is never made",
                       highest / on, Q::share},
            .source = "definition"});
  return all;
}

}  // namespace poise
