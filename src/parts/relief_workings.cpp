// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Calculations of the valves that limit pressure.
#include <cmath>

#include "parts/pilot_operated_relief.hpp"
#include "parts/relief.hpp"
#include "parts/worked.hpp"

namespace poise {
namespace {

using Q = Quantity;
using worked::add;
using worked::Seen;

constexpr const char* opening_law = "one law of opening for pressure valves";

/// Fully open it passes its rated flow at the end of its band.
worked::Expression full_drop(const ReliefOpening& seat, const worked::Flow& flow) {
  const double rated = seat.open.b / (0.1 * seat.open.a);  // Restriction::through
  return worked::drop_through(rated, seat.cracking + seat.band, flow);
}

bool moves_freely(const Values& v) { return v["least_opening"] == 0.0 && v["greatest_opening"] == 1.0; }

/// Where it stands with a flow over it; NaN where the flow does not lift it.
double add_standing(std::vector<Working>& all, const ReliefOpening& seat, const std::string& name,
                    const worked::Flow& flow) {
  return worked::add_opening(all, name, {.cracking = seat.cracking, .band = seat.band}, seat.open,
                             full_drop(seat, flow));
}

/// What flows over it turns pressure into heat.
void add_heat(std::vector<Working>& all, const Seen& seen, double over) {
  const double flow = seen.into(0);
  add(all, {.name = "heat while the greatest flow goes over it",
            .formula = "P = Δp·Q",
            .terms = {{"Δp", "pressure over it", over, Q::pressure},
                      {"Q", "greatest flow over it", flow, Q::flow}},
            .result = {"P", "power that becomes heat", over * flow, Q::power},
            .source = "power of a flow (closed form)"});
}

std::vector<Working> direct(const Values& v, const Duty& duty, bool drained) {
  std::vector<Working> all;
  if (!moves_freely(v)) return all;
  const ReliefOpening seat(v);
  const std::string outlet = drained ? ", outlet and drain without pressure" : "";
  if (!v.given("override_curve")) {
    add(all,
        {.name = "pressure over it with its rated flow" + outlet,
         .formula = "Δp_r = p_c·(1 + o)",
         .terms = {{"p_c", "cracking pressure", seat.cracking, Q::pressure},
                   {"o", "override", v["override"], Q::share}},
         .result = {"Δp_r", "pressure over it with its rated flow", seat.cracking + seat.band, Q::pressure},
         .source = opening_law});
  }
  if (v.given("setting_flow") && !v.given("override_curve") && v["setting_flow"] > 0.0) {
    add_standing(all, seat, "pressure over it as it is set",
                 {v["setting_flow"], "flow over it while it is set"});
  }
  const Seen seen(duty);
  const double over = add_standing(all, seat, "pressure over it with the greatest flow" + outlet,
                                   {seen.into(0), "greatest flow over it"});
  if (!drained) {
    const double tank = seen.highest(1);
    add(all, {.name = "pressure of its line with the greatest flow and the highest pressure at its outlet",
              .formula = "p_P = Δp + p_T",
              .terms = {{"Δp", "pressure over it", over, Q::pressure},
                        {"p_T", "highest pressure at T: the spring chamber sees it", tank, Q::pressure}},
              .result = {"p_P", "pressure at P", over + tank, Q::pressure},
              .source = "force balance of the poppet"});
  }
  add_heat(all, seen, over);
  return all;
}

/// The two stages at rest with a flow over them: where the main poppet stands, and what the pilot holds.
/// Returns the pressure, NaN where the flow does not lift the main poppet.
double add_stages(std::vector<Working>& all, const Values& v, const PilotOperatedRelief::Stages& stages,
                  const std::string& name, const worked::Flow& flow) {
  const worked::Expression drop = worked::drop_through(v["rated_flow"], v["pressure_drop"], flow);
  if (!(drop.value > 0.0)) return std::nan("");
  const double pressure = stages.pressure(flow.value);
  const double x = std::sqrt(drop.value / pressure);
  if (x > 1.0 - 1e-9) {
    worked::add_drop(all, name + ", fully open", drop);
    return drop.value;
  }
  const double chamber = pressure - stages.spring - x * (stages.stiffness + stages.flow_force * pressure);
  add(all, {.name = name,
            .formula = "Δp = (p_X + p_v + c·x)/(1 − k·x)",
            .terms = {{"p_X", "pressure behind the main poppet, over the pilot seat", chamber, Q::pressure},
                      {"p_v", "main spring as pressure: vented_pressure", stages.spring, Q::pressure},
                      {"c", "main spring, from shut to fully open", stages.stiffness, Q::pressure},
                      {"x", "opening of the main stage, by the next equation", x, Q::share},
                      {"k", "flow force as a share of the pressure over it, from its override",
                       stages.flow_force, Q::share}},
            .result = {"Δp", name, pressure, Q::pressure},
            .source = "force balance on main poppet and pilot seat (Merritt, from memory)"});
  std::vector<Term> terms = drop.terms;
  terms.push_back(
      {"Δp", "pressure over it, by the equation before: both hold together", pressure, Q::pressure});
  add(all, {.name = "opening of the main stage with this flow",
            .formula = "x = √((" + drop.formula + ")/Δp)",
            .terms = std::move(terms),
            .result = {"x", "share of full opening", x, Q::share},
            .source = drop.source});
  return pressure;
}

/// What goes over the main stage where a flow comes in: the rest goes through the orifice to the pilot. The
/// pressure hardly hangs on it, so that this settles at once.
double main_flow(const PilotOperatedRelief::Stages& stages, double flow) {
  constexpr int rounds = 30;
  double main = flow;
  for (int i = 0; i < rounds && main > 0.0; ++i) {
    const double pressure = stages.pressure(main);
    const double x = std::sqrt(stages.main.drop(main) / pressure);
    const double over_orifice = stages.spring + x * (stages.stiffness + stages.flow_force * pressure);
    main = flow - stages.orifice.flow(over_orifice, 1.0);
  }
  return main;
}

}  // namespace

std::vector<Working> Relief::workings(const Values& v, const Oil&, const Duty& duty) {
  return direct(v, duty, false);
}

std::vector<Working> ExternallyDrainedRelief::workings(const Values& v, const Oil&, const Duty& duty) {
  return direct(v, duty, true);
}

std::vector<Working> PilotOperatedRelief::workings(const Values& v, const Oil&, const Duty& duty) {
  std::vector<Working> all;
  if (!moves_freely(v)) return all;
  const double cracking = cracking_of(v);
  const Stages stages(v, cracking);
  add(all, {.name = "pressure over it with its rated flow, X shut",
            .formula = "Δp_r = p_c·(1 + o)",
            .terms = {{"p_c", "pressure at which its main stage begins to open", cracking, Q::pressure},
                      {"o", "override", v["override"], Q::share}},
            .result = {"Δp_r", "pressure over it with its rated flow", cracking * (1.0 + v["override"]),
                       Q::pressure},
            .source = "definition of the override"});
  if (v.given("setting_flow") && v["setting_flow"] > 0.0) {
    add_stages(all, v, stages, "pressure over it as it is set, X shut",
               {v["setting_flow"], "flow over its main stage while it is set"});
  }
  const Seen seen(duty);
  const double over = add_stages(all, v, stages, "pressure over it with the greatest flow, X shut",
                                 {main_flow(stages, seen.into(0)), "greatest flow less that of its pilot"});
  add_heat(all, seen, over);
  return all;
}

}  // namespace poise
