// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/pilot_operated_relief.hpp"

#include <cmath>

namespace poise {
namespace {

constexpr int halvings = 60;
constexpr double pilot_share_of_override = 0.25;  // the rest is the main stage's
constexpr double pilot_reserve = 4.0;             // the pilot seat fully open against pilot_flow
constexpr double stiffness_of_spring = 0.3;       // of the main spring's preload, over the whole lift

/// The pilot seat that passes pilot_flow while the chamber stands at `pressure`.
ReliefOpening pilot_at(double pressure, double band, double pilot_flow) {
  double low = 0.5 * pressure, high = pressure;
  for (int i = 0; i < halvings; ++i) {
    const double middle = 0.5 * (low + high);
    const double stands = ReliefOpening(middle, band, pilot_reserve * pilot_flow).pressure(pilot_flow);
    (stands < pressure ? low : high) = middle;
  }
  return {0.5 * (low + high), band, pilot_reserve * pilot_flow};
}

double highest_without_flow_force(const Values& v, PilotOperatedRelief::Stages stages) {
  stages.flow_force = 0.0;
  return stages.pressure(v["rated_flow"]);
}

}  // namespace

PilotOperatedRelief::Stages::Stages(const Values& v, double cracking)
    : pilot(pilot_at(cracking - v["vented_pressure"], pilot_share_of_override * v["override"] * cracking,
                     v["pilot_flow"])),
      orifice(Restriction::through(v["pilot_flow"], v["vented_pressure"])),
      main(Restriction::through(v["rated_flow"], v["pressure_drop"])),
      spring(v["vented_pressure"]),
      stiffness(stiffness_of_spring * v["vented_pressure"]) {
  const double full = cracking * (1.0 + v["override"]);
  double low = 0.0, high = 1.0;
  for (int i = 0; i < halvings; ++i) {
    flow_force = 0.5 * (low + high);
    (pressure(v["rated_flow"]) < full ? low : high) = flow_force;
  }
}

double PilotOperatedRelief::Stages::pressure(double flow) const {
  const double drop = main.drop(flow);
  double low = 0.0, high = 10.0 * (pilot.cracking + pilot.band + spring + stiffness + drop);
  for (int i = 0; i < halvings; ++i) {
    const double p = 0.5 * (low + high);
    const double x = std::sqrt(drop / p);
    const double over_orifice = spring + x * (stiffness + flow_force * p);
    const double needed = x < 1.0 ? pilot.pressure(orifice.flow(over_orifice, 1.0)) + over_orifice : no_limit;
    (p < needed ? low : high) = p;
  }
  return 0.5 * (low + high);
}

double PilotOperatedRelief::cracking_of(const Values& v) {
  const double reading = v["setting"];
  if (!v.given("setting_flow")) return reading;
  double low = reading / (1.0 + 2.0 * v["override"]), high = reading;
  for (int i = 0; i < halvings; ++i) {
    const double middle = 0.5 * (low + high);
    (Stages(v, middle).pressure(v["setting_flow"]) < reading ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

std::vector<Mismatch> PilotOperatedRelief::check(const Values& v) {
  if (v.given("setting_flow") && v["setting_flow"] > v["rated_flow"]) {
    return {{"setting_flow",
             "the valve was set at more than its rated flow; it cannot be relied on to limit the pressure "
             "there"}};
  }
  if (v["setting"] < 2.0 * (v["vented_pressure"] + v["pressure_drop"])) {
    return {{"setting",
             "a pilot-operated valve is set to at least twice its vented_pressure and pressure_drop "
             "together; below "
             "that take a direct-acting one"}};
  }
  const double cracking = cracking_of(v);
  if (highest_without_flow_force(v, Stages(v, cracking)) > cracking * (1.0 + v["override"])) {
    return {{"override", "its main spring alone takes more than this override at the rated flow"}};
  }
  return {};
}

}  // namespace poise
